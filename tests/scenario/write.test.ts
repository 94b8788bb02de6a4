import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ATTACKS, CUT_MOMENTS } from '../../src/scenario/day.js';
import { writeScenario } from '../../src/scenario/write.js';
import { airErrors, attack, cell, clock, cut, exchange, flashPage } from '../days/arbitrary-events.js';
import { anyDay } from './days.js';
import { read, readRun, scenarioText } from './reading.js';

const TWO_TOOLS = '{breaker: {hand: percussive, magnitude: 12.0}, grinder: {hand: rotary, magnitude: 7.5}}';

describe('writeScenario', () => {
  it('writes a day that reads back as the same day', () => {
    fc.assert(
      fc.property(anyDay, fc.constantFrom('A day', '12', 'a: b # c', 'null', '"', 'Schleuse: früh'), (day, title) => {
        const text = writeScenario(day, { title });
        const scenario = read(text);
        expect(scenario.title).toBe(title);
        const offsets = [...text.matchAll(/(?<=^ {2}- )\{at/gm)].map(({ index }) => index);
        expect(scenario.runs).toEqual([{ row: '', whatIf: null, day, offsets, expectations: [], notes: [] }]);
        expect(writeScenario(scenario.runs[0]!.day, { title })).toBe(text);
      }),
      { numRuns: 300 },
    );
  });

  it('writes the faults of random days so that they read back', () => {
    const times = { gridMs: 1, workFromMs: 0, lastMs: 3_600_000 };
    const cast = { tools: 2, workers: 2 };
    const faults = [
      ...[airErrors, cell, exchange, clock, flashPage].map((fault) => fault(cast, times)),
      ...CUT_MOMENTS.map((when) => cut(cast, times, when)),
      ...ATTACKS.map((how) => attack(cast, times, how)),
    ];
    const { day } = readRun(scenarioText({ tools: TWO_TOOLS }));
    fc.assert(
      fc.property(fc.oneof(...faults), (event) => {
        const faulty = { ...day, events: [event] };
        expect(readRun(writeScenario(faulty, { title: 'A fault' })).day).toEqual(faulty);
      }),
      { numRuns: 300 },
    );
  });

  it('writes one step a line, with quotes only where they are needed', () => {
    const { day } = readRun(
      scenarioText({
        until: 'day 2 09:00',
        seed: '7',
        tools: '{wall saw: {hand: rotary, magnitude: 4.6}, "12": {hand: impact, magnitude: 9.0, keyed: 9.0}}',
        workers: '{Edda: {site: 300}}',
        day: `[
          {at: 06:55, set: wall saw, to: 4.6},
          {at: 07:00, work: wall saw, by: Edda, bursts: 2, of: 12s, every: 1m},
          {at: 07:30:00.250, run: "12", by: Edda, for: 1h30m, held: no},
          {at: 08:00, leave: [Edda, "12"]},
          {at: 09:00, air: [wall saw, Edda], loss: 1/2, delay: [2ms, 3s], for: 35m},
          {at: day 2 08:00, close: Edda}]`,
      }),
    );
    expect(writeScenario(day, { title: 'The saw' })).toBe(
      `title: The saw
seed: 7
regime: eu-2002-44
from: 06:50
until: day 2 09:00
tools:
  wall saw: {hand: rotary, magnitude: 4.6}
  "12": {hand: impact, magnitude: 9.0, keyed: 9.0}
workers:
  Edda: {notice: 80, site: 300}
day:
  - {at: 06:55, set: wall saw, to: 4.6}
  - {at: 07:00, run: wall saw, by: Edda, for: 12s}
  - {at: 07:01, run: wall saw, by: Edda, for: 12s}
  - {at: 07:30:00.250, run: "12", by: Edda, for: 1h30m, held: no}
  - {at: 08:00, leave: [Edda, "12"]}
  - {at: 09:00, air: [wall saw, Edda], loss: 1/2, delay: [2ms, 3s], for: 35m}
  - {at: day 2 08:00, close: Edda}
`,
    );
  });
});
