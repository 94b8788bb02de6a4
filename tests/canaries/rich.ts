// Random days in which people do what random days seldom have: hand tools over all the time, begin to set a magnitude and walk
// away, take a tool up while it is being set, only touch, read counters out, tap alerts away; with tools that reach the limit.
import fc from 'fast-check';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';

const MINUTE_MS = 60_000;
const DAY_MS = 120 * MINUTE_MS;
/** As of random days: nothing begins in the quiet end. */
const LAST_MS = DAY_MS - 6 * MINUTE_MS;
const MOST_SCENES = 25;
/** Longer than it takes to pair, or to open setting. */
const SCENE_MS = 12_000;

/** Something that takes several events, from a moment on, with a tool and a worker of the day. */
type Scene = (atMs: number, tool: string, worker: string, size: number) => readonly DayEvent[];

const SCENES: readonly Scene[] = [
  handover,
  handover,
  handover,
  (atMs, tool, _, size) => [
    { atMs, do: 'press', tool, forMs: 2500 },
    { atMs: atMs + 3000, do: 'turn', tool, detents: size - 12 || 1, everyMs: 50 + 5 * size },
    { atMs: atMs + 8000, do: 'press', tool, forMs: 100 },
  ],
  (atMs, tool, worker, size) => [
    { atMs, do: 'set', tool, toTenths: 5 + 8 * size },
    { atMs: atMs + 2500 + 150 * size, do: 'run', tool, by: worker, forMs: 20_000, held: true },
  ],
  (atMs, tool, worker) => [{ atMs, do: 'touch', tool, with: worker }],
  (atMs, tool, worker, size) => [
    { atMs, do: 'pair', tool, with: worker },
    { atMs: atMs + 200 * size, do: 'run', tool, by: worker, forMs: 30_000, held: true },
  ],
  (atMs, tool) => [{ atMs, do: 'readout', device: tool }],
  (atMs, _, worker) => [{ atMs, do: 'readout', device: worker }],
  (atMs, _, worker) => [{ atMs, do: 'close', worker }],
  (atMs, _, worker) => [{ atMs, do: 'tap', worker, forMs: 100 }],
  (atMs, tool, worker, size) => [{ atMs, do: 'run', tool, by: worker, forMs: 60 + 8 * size, held: true }],
  (atMs, tool, worker, size) => [
    ...handover(atMs, tool, worker, size),
    { atMs: atMs + 20_000, do: 'leave', who: [worker], forMs: 10 * MINUTE_MS },
  ],
];

/** A pairing, and then some work. */
function handover(atMs: number, tool: string, worker: string, size: number): readonly DayEvent[] {
  return [
    { atMs, do: 'pair', tool, with: worker },
    { atMs: atMs + SCENE_MS, do: 'run', tool, by: worker, forMs: 5000 + 1000 * size, held: true },
  ];
}

export function richDay(): fc.Arbitrary<Day> {
  const scene = fc.record({
    scene: fc.constantFrom(...SCENES),
    atMs: fc.nat(LAST_MS - 2 * MINUTE_MS),
    tool: fc.nat(3),
    worker: fc.nat(2),
    size: fc.nat(24),
  });
  const scenes = fc.array(scene, { minLength: MOST_SCENES, maxLength: MOST_SCENES });
  return fc.tuple(faultyDay({ untilMs: DAY_MS }), scenes).map(([day, played]) => {
    const nameOf = (specs: Day['tools'] | Day['workers'], index: number) => specs[index % specs.length]!.name;
    const events = played.flatMap(({ scene: play, atMs, tool, worker, size }) =>
      play(atMs, nameOf(day.tools, tool), nameOf(day.workers, worker), size),
    );
    const all = [...day.events.filter((event) => !isMiddle(event)), ...events].sort((a, b) => a.atMs - b.atMs);
    return { ...day, tools: day.tools.map(heavy), events: all };
  });
}

/** Hands that push and tap at any time accept digits that differ, and then nothing holds. */
function isMiddle(event: DayEvent): boolean {
  return event.do === 'attack' && event.how === 'middle';
}

/** So heavy that a worker reaches the limit in half an hour. */
function heavy(tool: Day['tools'][number]): Day['tools'][number] {
  const magnitudeTenths = Math.max(200, tool.magnitudeTenths);
  return { ...tool, magnitudeTenths, keyedTenths: tool.keyedTenths === null ? null : magnitudeTenths };
}
