// Whatever a device can show, and whatever state it can be in, a scenario may speak of.
import fc from 'fast-check';
import { expect, it, vi } from 'vitest';
import { Bench } from '../../../src/bench/bench.js';
import { scenarioWords } from '../../../src/cli/scenario/words.js';
import { faultyDay } from '../../../src/prove/days/day.js';
import type { Day } from '../../../src/scenario/day.js';
import { ONLY_SENDER } from '../../../src/scenario/expect/happenings.js';
import type { DeviceWords } from '../../../src/scenario/words.js';
import { PATIENCE_MS, PATIENT } from '../../days/patience.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const words = scenarioWords();

it('knows screens, icons and states of devices that are low, asleep, without power, or erase', () => {
  for (const { screens, icons } of [words.counter, words.wearable]) {
    expect(screens).toEqual(expect.arrayContaining(['ready', 'asleep', 'dark']));
    expect(icons).toEqual(expect.arrayContaining(['cell', 'journal']));
  }
  expect(words.counter.regions).toMatchObject({
    panel: expect.arrayContaining(['pairing.committed', 'pairing.comparing.asked']) as unknown,
    session: expect.arrayContaining(['none.running', 'open.stopped.telling']) as unknown,
    journal: ['ready', 'erasing'],
    power: ['on', 'waiting'],
  });
  expect(words.wearable.regions).toMatchObject({
    pairing: expect.arrayContaining(['open.committed', 'open.comparing.tapped']) as unknown,
    journal: ['ready', 'erasing'],
    power: ['on', 'waiting'],
  });
});

it('knows of every frame who sends it, but of the two that both do', () => {
  expect(words.frames.filter((frame) => !Object.hasOwn(ONLY_SENDER, frame))).toEqual(['accept', 'refuse']);
});

it('knows whatever the traces of days on which much goes wrong have', () => {
  const unknown = new Set<string>();
  const check = (day: Day) => {
    const tools = new Set(day.tools.map(({ name }) => name));
    const of = (by: string): DeviceWords => (tools.has(by) ? words.counter : words.wearable);
    const bench = Bench.open(day, { keys: false });
    bench.run();
    for (const event of bench.events) {
      if (!words.kinds.includes(event.kind)) unknown.add(event.kind);
      if (event.kind === 'inner.state' && !of(event.by).regions[event.region]?.includes(event.state)) {
        unknown.add(`${event.region} ${event.state}`);
      }
      const frame = event.kind === 'air.pairing' ? event.frame : event.kind.slice('air.'.length);
      const sender = words.frames.includes(frame) && 'bytes' in event ? ONLY_SENDER[frame] : undefined;
      if (sender !== undefined && tools.has(event.by) !== (sender === 'counter'))
        unknown.add(`${frame} of ${event.by}`);
      if (event.kind !== 'shown.display') continue;
      if (!of(event.by).screens.includes(event.screen)) unknown.add(event.screen);
      for (const icon of event.icons) if (!of(event.by).icons.includes(icon)) unknown.add(icon);
    }
  };
  fc.assert(fc.property(faultyDay({ untilMs: 3_600_000 }), check), { ...PATIENT, numRuns: 30, seed: 1 });
  expect([...unknown]).toEqual([]);
});
