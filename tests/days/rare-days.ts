// Days written by hand for what random ones seldom reach: full stores, six idle hours, a shift over sixteen, the limit passed,
// journals that go round, cells that sleep and wake, power that fails at odd moments.
import type { Day, DayEvent } from '../../src/scenario/day.js';

const SECOND_MS = 1000;
const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;

/** More than a counter keeps sealed sessions, and than a wearable holds counters (PAI-5: 32 each). */
const TOO_MANY = 34;

function dayOf(
  tools: readonly string[],
  workers: readonly string[],
  untilMs: number,
  events: readonly DayEvent[],
): Day {
  return {
    fromMs: 6 * HOUR_MS,
    untilMs,
    seed: 11,
    regime: 'eu-2002-44',
    tools: tools.map((name) => ({ name, hand: 'rotary', magnitudeTenths: 500, keyedTenths: 500 })),
    workers: workers.map((name) => ({ name, noticePoints: 80, sitePoints: 250 })),
    events: [...events].sort((a, b) => a.atMs - b.atMs),
  };
}

const crowd = (name: string) => Array.from({ length: TOO_MANY }, (_, index) => `${name} ${index + 1}`);
const run = (atMs: number, forMs: number): DayEvent => ({
  atMs,
  do: 'run',
  tool: 'saw',
  by: 'Edda',
  forMs,
  held: true,
});
const pair = (atMs: number, tool = 'saw', worker = 'Edda'): DayEvent => ({ atMs, do: 'pair', tool, with: worker });
const press = (atMs: number, forMs: number): DayEvent => ({ atMs, do: 'press', tool: 'saw', forMs });
const tap = (atMs: number): DayEvent => ({ atMs, do: 'tap', worker: 'Edda', forMs: 200 });
const cut = (atMs: number, device: string, forMs: number): DayEvent => {
  return { atMs, do: 'cut', device, when: 'now', afterBytes: 0, forMs };
};
const cell = (atMs: number, device: string, toPercent: number): DayEvent => ({ atMs, do: 'cell', device, toPercent });
const readout = (atMs: number, device: string): DayEvent => ({ atMs, do: 'readout', device });
const touch = (atMs: number): DayEvent => ({ atMs, do: 'touch', tool: 'saw', with: 'Edda' });

export const RARE_DAYS: Readonly<Record<string, Day>> = {
  'a counter whose store is full': dayOf(['saw'], crowd('worker'), HOUR_MS, [
    ...crowd('worker').flatMap((worker, index): readonly DayEvent[] => [
      pair(index * MINUTE_MS, 'saw', worker),
      { atMs: index * MINUTE_MS + 30 * SECOND_MS, do: 'leave', who: [worker], forMs: null },
    ]),
    { atMs: 50 * MINUTE_MS, do: 'return', who: crowd('worker') },
  ]),

  'a wearable whose ledger is full': dayOf(
    crowd('saw'),
    ['Edda'],
    HOUR_MS,
    crowd('saw').map((saw, index) => pair(index * MINUTE_MS, saw)),
  ),

  'a review that is turned back, and one that is let be': dayOf(['saw'], ['Edda'], 10 * MINUTE_MS, [
    press(0, 2000),
    press(5 * SECOND_MS, 100),
    { atMs: 6 * SECOND_MS, do: 'turn', tool: 'saw', detents: -3, everyMs: 200 },
    press(10 * SECOND_MS, 100),
  ]),

  'touches that are refused, and again': dayOf(['saw'], ['Edda'], 10 * MINUTE_MS, [
    run(0, 5 * MINUTE_MS),
    touch(MINUTE_MS),
    touch(MINUTE_MS + SECOND_MS),
    touch(MINUTE_MS + 2 * SECOND_MS),
  ]),

  'a shift of more than sixteen hours, and idle hours after it': dayOf(['saw'], ['Edda'], 26 * HOUR_MS, [
    pair(0),
    ...[1, 6, 11, 16].map((hour) => run(hour * HOUR_MS, 10 * SECOND_MS)),
    pair(23 * HOUR_MS),
  ]),

  'the limit passed, acknowledged, and passed again': dayOf(['saw'], ['Edda'], HOUR_MS, [
    pair(0),
    run(MINUTE_MS, 10 * MINUTE_MS),
    tap(8 * MINUTE_MS),
    run(20 * MINUTE_MS, MINUTE_MS),
    tap(30 * MINUTE_MS),
    run(40 * MINUTE_MS, MINUTE_MS),
    tap(40 * MINUTE_MS + 30 * SECOND_MS),
  ]),

  'a shift of more than sixteen hours in which power fails': dayOf(['saw'], ['Edda'], 17 * HOUR_MS, [
    pair(0),
    ...[1, 6, 11, 16].map((hour) => run(hour * HOUR_MS, 10 * SECOND_MS)),
    cut(2 * HOUR_MS, 'Edda', MINUTE_MS),
    cut(12 * HOUR_MS, 'saw', MINUTE_MS),
  ]),

  'journals that go round, and power that fails in their erases': dayOf(['saw'], ['Edda'], 4.5 * HOUR_MS, [
    pair(0),
    run(MINUTE_MS, 4 * HOUR_MS),
    ...['saw', 'Edda'].map((device): DayEvent => {
      return { atMs: 3.5 * HOUR_MS, do: 'cut', device, when: 'erase', afterBytes: 0, forMs: MINUTE_MS };
    }),
  ]),

  'cells that are low, empty and exchanged while an alert calls': dayOf(['saw'], ['Edda'], HOUR_MS, [
    pair(0),
    run(MINUTE_MS, 50 * MINUTE_MS),
    ...['saw', 'Edda'].flatMap((device, index) => [
      cell((10 + 2 * index) * MINUTE_MS, device, 3),
      cell((15 + 2 * index) * MINUTE_MS, device, 50),
      cell((20 + 2 * index) * MINUTE_MS, device, 0),
      { atMs: (25 + 2 * index) * MINUTE_MS, do: 'exchange', device, forMs: MINUTE_MS } as const,
    ]),
    cut(40 * MINUTE_MS, 'Edda', MINUTE_MS),
  ]),

  'readouts, of a counter with a session that nobody heard of, too': dayOf(['saw'], ['Edda', 'Bram'], HOUR_MS, [
    pair(0),
    { atMs: MINUTE_MS, do: 'leave', who: ['Edda'], forMs: null },
    run(2 * MINUTE_MS, MINUTE_MS),
    pair(5 * MINUTE_MS, 'saw', 'Bram'),
    readout(10 * MINUTE_MS, 'saw'),
    readout(11 * MINUTE_MS, 'Bram'),
    cut(12 * MINUTE_MS, 'Bram', MINUTE_MS),
    readout(20 * MINUTE_MS, 'Bram'),
  ]),

  'somebody in the middle who comes too late to have committed to anything': dayOf(['saw'], ['Edda'], 10 * MINUTE_MS, [
    {
      ...{ atMs: 0, do: 'air', tool: 'saw', worker: 'Edda', forMs: MINUTE_MS, delayMs: [400, 400] },
      ...{ loss: { num: 0, den: 1 }, duplicate: { num: 0, den: 1 }, errors: { num: 0, den: 1 } },
    },
    pair(SECOND_MS),
    // The hello was heard after 400 ms, the answer after 800; the nonce that is sent then is the first frame that is stopped.
    { atMs: 1700, do: 'attack', how: 'middle', tool: 'saw', worker: 'Edda', everyMs: 0, forMs: MINUTE_MS },
  ]),
};
