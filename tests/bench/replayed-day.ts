// A whole day of frames, recorded by somebody near, and said again verbatim to the devices as they are at its end: each to the
// one that it was meant for and to the one that had sent it, in order or shuffled, with or without a power failure before.
// A copy of the bench to which nothing is said shows what would have become of them anyway.
import { RandomStream } from '../../sim/kernel/random.js';
import { Bench, type Outcome } from '../../src/bench/bench.js';
import type { Day } from '../../src/scenario/day.js';
import type { Kind, TraceEvent } from '../../src/trace/kinds.js';
import { hex } from '../link/hex.js';

export interface Replay {
  readonly shuffled: boolean;
  /** Power of every device fails for a moment between the day and its replay. */
  readonly restarted: boolean;
}

export const ORDERS: readonly Replay[] = [false, true].flatMap((restarted) =>
  [false, true].map((shuffled) => ({ shuffled, restarted })),
);

export interface ReplayedDay {
  /** How often a device has started. */
  readonly starts: number;
  readonly frames: number;
  readonly delivered: number;
  /** Taken, and changed nothing: what had been heard already and is acknowledged again. */
  readonly taken: number;
  readonly refused: Readonly<Record<string, number>>;
  /** What was charged, counted, paired, opened, closed or set after the day, beyond what would have been anyway. */
  readonly more: readonly string[];
  readonly outcome: Outcome;
  readonly untouched: Outcome;
}

/** The wait for the devices to settle before the replay, and how far apart two deliveries are. */
const SETTLE_MS = 120_000;
const APART_MS = 50;
const HOUR_MS = 3_600_000;
const SENT: ReadonlySet<Kind> = new Set<Kind>(['air.tally', 'air.report', 'air.ack', 'air.pairing']);
const TELLING: ReadonlySet<Kind> = new Set<Kind>([
  'inner.ledger',
  'inner.count',
  'inner.session',
  'inner.magnitude',
  'inner.paired',
  'inner.shift',
  'inner.incomplete',
  'shown.alert',
]);

export function replayDay(day: Day, { shuffled, restarted }: Replay): ReplayedDay {
  const bench = Bench.open(longer(day, restarted));
  bench.runTo(day.untilMs);
  const frames = bench.events.flatMap(frameOf);
  bench.runTo(day.untilMs + SETTLE_MS);
  const before = bench.events.length;
  const control = bench.fork();
  const untouched = control.run();
  const heard = frames.flatMap(({ bytes, by, to }) => [to, by].map((device) => ({ device, bytes })));
  if (heard.length * APART_MS > HOUR_MS - SETTLE_MS) throw new Error(`${heard.length} frames are too many to replay`);
  const order = shuffled ? shuffle(heard, RandomStream.named(day.seed, 'replay')) : heard;
  for (const [index, { device, bytes }] of order.entries()) {
    bench.deliver(day.untilMs + SETTLE_MS + (index + 1) * APART_MS, device, bytes);
  }
  const outcome = bench.run();
  const after = bench.events.slice(before);
  const refused = refusalsIn(after);
  const sum = Object.values(refused).reduce((all, count) => all + count, 0);
  return {
    starts: bench.events.filter(({ kind }) => kind === 'flash.recovered').length,
    frames: frames.length,
    delivered: heard.length,
    taken: heard.length - sum,
    refused,
    more: beyond(after, control.events.slice(before)),
    outcome: { ...outcome, refused: untouched.refused },
    untouched,
  };
}

/** Nothing happens any more but, where asked for, a power failure of every device. */
function longer(day: Day, restarted: boolean): Day {
  const devices = [...day.tools, ...day.workers].map(({ name }) => name);
  const cuts = devices.map(
    (device) => ({ atMs: day.untilMs + 1, do: 'cut', device, when: 'now', afterBytes: 0, forMs: 2_000 }) as const,
  );
  return { ...day, untilMs: day.untilMs + HOUR_MS, events: [...day.events, ...(restarted ? cuts : [])] };
}

function frameOf(event: TraceEvent): { by: string; to: string; bytes: Uint8Array }[] {
  if (!SENT.has(event.kind) || !('bytes' in event) || !('to' in event)) return [];
  return [{ by: event.by, to: event.to, bytes: hex(event.bytes) }];
}

function shuffle<T>(list: readonly T[], random: RandomStream): T[] {
  const shuffled = [...list];
  for (let index = shuffled.length - 1; index > 0; index--) {
    const other = random.within(0, index);
    [shuffled[index], shuffled[other]] = [shuffled[other]!, shuffled[index]!];
  }
  return shuffled;
}

function refusalsIn(events: readonly TraceEvent[]): Record<string, number> {
  const refused: Record<string, number> = {};
  for (const event of events) {
    if (event.kind !== 'air.refused' || event.frame !== 'injected') continue;
    refused[event.reason] = (refused[event.reason] ?? 0) + 1;
  }
  return refused;
}

/** What is told in the one and not in the other; when it was does not matter. */
function beyond(events: readonly TraceEvent[], others: readonly TraceEvent[]): string[] {
  const known = others.filter(({ kind }) => TELLING.has(kind)).map(textOf);
  return events
    .filter(({ kind }) => TELLING.has(kind))
    .map(textOf)
    .filter((text) => {
      const at = known.indexOf(text);
      if (at !== -1) known.splice(at, 1);
      return at === -1;
    });
}

function textOf(event: TraceEvent): string {
  return JSON.stringify({ ...event, n: 0, at: 0, cause: 0 });
}
