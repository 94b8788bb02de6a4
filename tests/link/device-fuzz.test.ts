// TAL-3, TAL-4, TAL-7 at real devices: nothing crashes them, nothing that was not sent changes anything, what is sealed rightly
// around hostile contents charges what the rules allow and no more, and every refused frame is counted once, by its reason.
import { describe, expect, test } from 'vitest';
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { REFUSALS } from '../../src/port/refusals.js';
import { DEVICES, type DeviceName, type DeviceOutcomes, fuzzDevices } from './device-fuzz.js';
import type { FuzzCounts } from './fuzz.js';

/** For each of the two devices; tests/link/campaign.ts runs a hundred times as many of the first two. */
const COUNTS: FuzzCounts = { random: 4_000, mutated: 4_000, hostile: 4_000 };

/** Only a tally can be implausible, and only a counter commits itself. */
const REACHED: Readonly<Record<DeviceName, readonly string[]>> = {
  counter: REFUSALS.filter((reason) => reason !== 'implausible' && reason !== 'commitment'),
  wearable: REFUSALS,
};

const sum = (outcomes: DeviceOutcomes) => Object.values(outcomes).reduce((all, count) => all + count, 0);

describe.each([
  ['CHIP', CHIP],
  ['NO_KEYS', NO_KEYS],
])('%s', (_, cipher) => {
  const { outcomes, effects, faults } = fuzzDevices(cipher, COUNTS, 4712);

  test('nothing goes wrong', () => {
    expect(faults).toEqual([]);
  });

  test.each(DEVICES)('at the %s every frame comes to one outcome, and nothing random or changed is taken', (device) => {
    const { random, mutated, hostile } = outcomes[device];
    expect([sum(random), sum(mutated), sum(hostile)]).toEqual([COUNTS.random, COUNTS.mutated, COUNTS.hostile]);
    expect([random.taken, mutated.taken]).toEqual([0, 0]);
    expect(hostile.taken).toBeGreaterThan(300);
  });

  test.each(DEVICES)('the %s reaches every reason to refuse that it has', (device) => {
    const { random, mutated, hostile } = outcomes[device];
    const reached = REFUSALS.filter((reason) => random[reason] + mutated[reason] + hostile[reason] > 0);
    expect(reached).toEqual(REACHED[device]);
  });

  test('meanwhile sessions are opened, closed, delivered and charged, and devices start again', () => {
    for (const [effect, often] of Object.entries(effects)) expect(often, effect).toBeGreaterThan(20);
    expect(Object.keys(effects)).toHaveLength(7);
  });
});
