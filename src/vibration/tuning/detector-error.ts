// How far a detector's spans are from the known running times.

import { WINDOW_MS } from './levels.js';
import type { Mark } from './marks.js';
import type { Detected, WindowSpan } from './spans.js';

/** All times in ms. */
export interface DetectorError {
  readonly trueMs: number;
  readonly countedMs: number;
  /** Counted less true: what was missed and what was false may hide each other in it. */
  readonly triggerTimeErrorMs: number;
  /** Counted though it did not run, and not counted though it ran. */
  readonly falseMs: number;
  readonly missedMs: number;
  /** Spans in which it never ran; marks of which nothing was counted. */
  readonly falseBursts: number;
  readonly missedBursts: number;
  /** TRG-3: counted as bursts too short to confirm. */
  readonly shortBursts: number;
  /** Of the marks of which something was counted: the farthest that a start, and a stop, is off; null where there is none. */
  readonly worstStartMs: number | null;
  readonly worstStopMs: number | null;
}

interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/** marks: as readMarks gives them; of those that reach beyond the levels, windows in all, only what lies within is asked for. */
export function detectorError(
  { spans, shortBursts }: Detected,
  marks: readonly Mark[],
  windows: number,
): DetectorError {
  const counted = spans.map(ofSpan);
  const ran = marks.flatMap((mark) => within(mark, windows * WINDOW_MS));
  const [trueMs, countedMs] = [lengthOf(ran), lengthOf(counted)];
  const { bothMs, ofRan, ofCounted } = overlaps(ran, counted);
  const starts = ofRan.flatMap(({ stretch, first }) => (first === undefined ? [] : [first.fromMs - stretch.fromMs]));
  const stops = ofRan.flatMap(({ stretch, last }) => (last === undefined ? [] : [last.toMs - stretch.toMs]));
  return {
    trueMs,
    countedMs,
    triggerTimeErrorMs: countedMs - trueMs,
    falseMs: countedMs - bothMs,
    missedMs: trueMs - bothMs,
    falseBursts: ofCounted.filter((met) => !met).length,
    missedBursts: ofRan.filter(({ first }) => first === undefined).length,
    shortBursts,
    worstStartMs: farthest(starts),
    worstStopMs: farthest(stops),
  };
}

function ofSpan({ from, to }: WindowSpan): Stretch {
  return { fromMs: from * WINDOW_MS, toMs: to * WINDOW_MS };
}

function within({ startS, stopS }: Mark, endMs: number): readonly Stretch[] {
  const [fromMs, toMs] = [Math.round(1000 * startS), Math.min(endMs, Math.round(1000 * stopS))];
  return fromMs < toMs ? [{ fromMs, toMs }] : [];
}

function lengthOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sumMs, { fromMs, toMs }) => sumMs + toMs - fromMs, 0);
}

/** Both in order: which of the counted each that ran meets first and last, and whether each of the counted meets any. */
function overlaps(ran: readonly Stretch[], counted: readonly Stretch[]) {
  const ofCounted = counted.map(() => false);
  let bothMs = 0;
  let next = 0;
  const ofRan = ran.map((stretch) => {
    while (next < counted.length && counted[next]!.toMs <= stretch.fromMs) next += 1;
    let first: Stretch | undefined;
    let last: Stretch | undefined;
    for (let at = next; at < counted.length && counted[at]!.fromMs < stretch.toMs; at++) {
      last = counted[at]!;
      first ??= last;
      ofCounted[at] = true;
      bothMs += Math.min(last.toMs, stretch.toMs) - Math.max(last.fromMs, stretch.fromMs);
    }
    return { stretch, first, last };
  });
  return { bothMs, ofRan, ofCounted };
}

function farthest(offsMs: readonly number[]): number | null {
  return offsMs.reduce<number | null>(
    (worst, offMs) => (Math.abs(offMs) > Math.abs(worst ?? 0) || worst === null ? offMs : worst),
    null,
  );
}
