// Somebody who replays, alters, forges or floods (TAL-4) is heard, and changes nothing: what reaches the ledgers does so in the
// same seconds as without them, to the last u.
import { describe, expect, it } from 'vitest';
import type { Attack, DayEvent } from '../../../src/scenario/day.js';
import type { TraceEvent } from '../../../src/trace/kinds.js';
import { attack, MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

const AT_MS = 2 * MINUTE_MS;
const FOR_MS = 4 * MINUTE_MS;
/** Each of the two devices gets fewer than 60 wrong tags a minute, beyond which it looks at none (TAL-7). */
const EVERY_MS = 1500;

function worked(...attacks: readonly DayEvent[]): readonly TraceEvent[] {
  const work = [run(MINUTE_MS, 'saw', 'Edda', 7 * MINUTE_MS), run(MINUTE_MS, 'breaker', 'Bram', 7 * MINUTE_MS)];
  return traceOf(smallDay([pair(0, 'saw', 'Edda'), pair(20 * SECOND_MS, 'breaker', 'Bram'), ...work, ...attacks]));
}

/** By the second: a replayed tally may be acknowledged once more, and then other frames take some ms more or less. */
function ledgersOf(events: readonly TraceEvent[]): readonly (readonly [number, string, number])[] {
  const entries = ['Edda', 'Bram'].flatMap((worker) => ofKind(events, 'inner.ledger', worker));
  return entries.map(({ at, counter, total }) => [at - (at % SECOND_MS), counter, total]);
}

const alone = worked();

describe.each<Attack>(['replay', 'alter', 'forge', 'flood'])('an attacker who does %s', (how) => {
  const events = worked(attack(AT_MS, how, 'saw', 'Edda', FOR_MS, EVERY_MS));
  const injected = ofKind(events, 'air.injected');

  it('sends a frame every so often, to the two, until the attack is over', () => {
    const due = Array.from({ length: FOR_MS / EVERY_MS - 1 }, (_, index) => AT_MS + (index + 1) * EVERY_MS);
    expect(injected.map(({ at }) => at)).toEqual(due);
    expect(new Set(injected.map(({ to }) => to))).toEqual(new Set(['saw', 'Edda']));
    expect(new Set(injected.map((event) => event.how))).toEqual(new Set([how]));
    expect(ofKind(events, 'fault.attack').map(({ at, by, worker }) => [at, by, worker])).toEqual([
      [AT_MS, 'saw', 'Edda'],
    ]);
    expect(ofKind(events, 'fault.lifted').map(({ at, by, what }) => [at, by, what])).toEqual([
      [AT_MS + FOR_MS, 'saw', 'attack Edda'],
    ]);
  });

  it('is heard from the bench, as no device’s, and mostly refused', () => {
    const heard = ofKind(events, 'air.heard').filter(({ from }) => from === 'bench');
    expect(heard.map(({ cause, frame }) => [cause, frame])).toEqual(injected.map(({ n }) => [n, 'injected']));
    const refused = ofKind(events, 'air.refused').filter(({ from }) => from === 'bench');
    expect(refused.length).toBeGreaterThan(injected.length / 2);
    const causes = new Set(heard.map(({ n }) => n));
    for (const { cause } of refused) expect(causes).toContain(cause);
  });

  it('changes nothing on any ledger', () => {
    expect(ledgersOf(events)).toEqual(ledgersOf(alone));
    expect(ledgersOf(alone).length).toBeGreaterThan(100);
  });

  it('sends other bytes than any device has sent, unless it is a replay', () => {
    const said = new Set(events.flatMap((event) => ('bytes' in event && event.by !== 'bench' ? [event.bytes] : [])));
    const again = injected.filter(({ bytes }) => said.has(bytes));
    // Of those that are altered some are whole, and sent to the other device.
    if (how === 'replay') expect(again).toEqual(injected);
    else if (how === 'alter') expect(again.length).toBeLessThan(injected.length / 2);
    else expect(again).toEqual([]);
  });
});

it('an attacker who has heard nothing has nothing to send again', () => {
  const events = traceOf(smallDay([attack(0, 'replay', 'saw', 'Edda', FOR_MS, EVERY_MS)]));
  expect(ofKind(events, 'air.injected')).toEqual([]);
});

it('one attack does not end another', () => {
  const events = worked(
    attack(AT_MS, 'replay', 'saw', 'Edda', MINUTE_MS, 10 * SECOND_MS),
    attack(AT_MS + 30 * SECOND_MS, 'flood', 'saw', 'Edda', MINUTE_MS, 10 * SECOND_MS),
  );
  const last = (how: string) => ofKind(events, 'air.injected').findLast((event) => event.how === how)!.at;
  expect([last('replay'), last('flood')]).toEqual([AT_MS + 50 * SECOND_MS, AT_MS + 80 * SECOND_MS]);
});
