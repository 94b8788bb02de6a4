// Power failing at every byte that a device writes in a day (KEP-1, WEA-5): at each of them the day is forked, the power fails
// within that byte and comes back a second later, and what the device then has is held against what it had counted; then again
// at every byte that it writes as it recovers, until the erases of its recovery are over. Nothing is sampled.
import { Bench, type BenchOptions } from '../bench/bench.js';
import { RESTART_MS } from '../bench/power/fails.js';
import { FLASH } from '../port/flash.js';
import { WINDOW_MS } from '../port/port.js';
import type { Day } from '../scenario/day.js';

/** KEP-1: 10 s of trigger time for each failure. */
const MOST_LOST_WINDOWS = 100;
/** A recovery: what is written at once, and what waits for an erase and the next. */
const RECOVERY_MS = 2 * FLASH.eraseMs;
/** Windows that a device may count in it, with the one that was begun before. */
const COUNTED_MEANWHILE = RECOVERY_MS / WINDOW_MS + 1;

export interface Cuts {
  /** Failures within a byte or a step of an erase, and within one of the recovery from such a failure. */
  cuts: number;
  again: number;
  /** Windows of trigger time lost by one failure, at most. */
  mostLost: number;
  /** What was broken, in words; the first MOST_TOLD. */
  readonly broken: string[];
}

const MOST_TOLD = 10;

export interface CutOptions {
  /** Whether power also fails at every byte of each recovery. */
  readonly recoveries: boolean;
  /** Only failures at steps of the flash from `from` on, every `by`-th one: to share a day among several workers. */
  readonly from?: number;
  readonly by?: number;
  /** Told after each failure. */
  readonly progress?: (cuts: Readonly<Cuts>) => void;
}

/** device: the name of the tool whose counter, or of the worker whose wearable loses power. */
export function cutEverywhere(day: Day, device: string, options: CutOptions, benchOptions: BenchOptions = {}): Cuts {
  const { from = 0, by = 1 } = options;
  const found: Cuts = { cuts: 0, again: 0, mostLost: 0, broken: [] };
  const bench = Bench.open(day, { ...benchOptions, trace: 'none' });
  let before = bench.fork();
  while (bench.step()) {
    const written = bench.flashSteps(device) - before.flashSteps(device);
    const truth = written > 0 ? { before: countedBy(before, device), after: countedBy(bench, device) } : null;
    for (let step = 0; truth !== null && step < written; step++) {
      if ((before.flashSteps(device) + step) % by !== from) continue;
      cutAt(before, device, step, truth, options, found);
    }
    before = bench.fork();
  }
  return found;
}

function cutAt(before: Bench, device: string, step: number, truth: Truth, options: CutOptions, found: Cuts): void {
  const cut = before.fork();
  cut.failFlashAfter(device, step);
  cut.step();
  const where = `at byte ${before.flashSteps(device) + step} that ${device} writes, ${cut.nowMs} ms`;
  requireFailed(cut, device, where);
  const backMs = cut.nowMs + RESTART_MS;
  cut.runTo(backMs - 1);
  const off = cut.fork();
  cut.runTo(backMs);
  found.cuts += 1;
  weigh(countedBy(cut, device), truth, 1, where, found);
  if (options.recoveries) cutRecovery(cut, off, backMs, device, truth, where, found);
  options.progress?.(found);
}

/** cut: just after power came back, at backMs; off: just before that. */
function cutRecovery(
  cut: Bench,
  off: Bench,
  backMs: number,
  device: string,
  truth: Truth,
  where: string,
  found: Cuts,
): void {
  cut.runTo(backMs + RECOVERY_MS);
  const written = cut.flashSteps(device) - off.flashSteps(device);
  for (let again = 0; again < written; again++) {
    const twice = off.fork();
    twice.failFlashAfter(device, again);
    twice.runTo(backMs);
    while (twice.hasPower(device) && twice.nowMs <= backMs + RECOVERY_MS) twice.step();
    const at = `${where}, and ${again} bytes into the recovery`;
    requireFailed(twice, device, at);
    twice.runTo(twice.nowMs + RESTART_MS);
    found.again += 1;
    weigh(countedBy(twice, device), truth, 2, at, found, COUNTED_MEANWHILE);
  }
}

function requireFailed(bench: Bench, device: string, where: string): void {
  if (bench.hasPower(device)) throw new Error(`${where}: power does not fail`);
}

/** Trigger windows, of a counter by session (0: the unclaimed), of a wearable by shift. */
type Sums = ReadonlyMap<number, number>;

/** What the device has just before, and just after what it does at that moment, if its power does not fail. */
interface Truth {
  readonly before: Sums;
  readonly after: Sums;
}

function countedBy(bench: Bench, device: string): Sums {
  const { counters, shifts } = bench.outcome();
  const counter = counters[device];
  if (counter !== undefined) {
    return new Map([counter, ...counter.others].map(({ session, triggerWindows }) => [session, triggerWindows]));
  }
  const kept = shifts[device];
  if (kept === undefined) throw new Error(`the day has no device of ${device}`);
  return new Map(kept.map(({ shift, triggerWindows }) => [shift, triggerWindows]));
}

/**
 * Nothing comes back with more than it had and may have counted since; and of all that was counted no more is lost than may be.
 */
function weigh(
  kept: Sums,
  { before, after }: Truth,
  failures: number,
  where: string,
  found: Cuts,
  countedSince = 0,
): void {
  for (const [number, windows] of kept) {
    const most = Math.max(before.get(number) ?? 0, after.get(number) ?? 0) + countedSince;
    if (windows > most) tell(found, `${where}: number ${number} comes back with ${windows} windows of ${most}`);
  }
  let lost = 0;
  for (const [number, windows] of after) lost += Math.max(0, windows - (kept.get(number) ?? 0));
  found.mostLost = Math.max(found.mostLost, lost);
  if (lost > failures * MOST_LOST_WINDOWS) tell(found, `${where}: ${lost} windows are lost`);
}

function tell(found: Cuts, what: string): void {
  if (found.broken.length < MOST_TOLD) found.broken.push(what);
}
