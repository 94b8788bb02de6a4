// The time column: what rate it tells, and where it does not go on evenly. Times are printed with so many digits, and nothing is
// blamed on the recorder that those digits may hide.
import { counted, finding, Places, shown } from '../findings.js';
import type { Finding } from '../recording.js';

/** A time in s, and the least difference in s that its digits can show. */
export interface Stamp {
  readonly time: number;
  readonly resolution: number;
}

/** In usual steps: where the digits allow, a longer one has lost samples. */
export const GAP_STEPS = 1.5;
/** Of the usual step: with coarser digits, one lost sample may hide. A half, and a little for binary numbers. */
const COARSE_PART = 0.51;
/** Of the usual step: one that differs by more is uneven. */
export const UNEVEN_PART = 0.1;
/** Fewer than one uneven step in so many are for the record; more let the values be doubted. */
const UNEVEN_IN = 1000;
/** Of the rate: the same recorder's rate may wander by so much between the first rows and the whole. */
export const DRIFT_PART = 0.001;
/** A clock of which one step in so many is none stands still. */
const STANDSTILL_IN = 10;
/** Rounds in which steps with lost samples are left out of the mean. */
const ROUNDS = 3;
/** Of a time's size: what is lost when it is kept as a binary number. */
const BINARY_PART = 2 ** -52;

/** What the first rows tell of the clock, in s. */
export interface Pace {
  /** From sample to sample. */
  readonly step: number;
  /** By which the clock advances where it often stands still, whatever digits are printed; else 0. */
  readonly grain: number;
}

/** null where the times do not tell: fewer than two, or no progress. */
export function paceOf(stamps: readonly Stamp[]): Pace | null {
  const steps = stamps.slice(1).map((stamp, at) => [stamp.time - stamps[at]!.time, blur(stamps[at]!, stamp)] as const);
  const forward = steps.filter(([step]) => step >= 0);
  const sorted = forward.map(([step]) => step).sort((a, b) => a - b);
  const moving = sorted.findIndex((step) => step > 0);
  if (moving === -1) return null;
  const grain = moving * STANDSTILL_IN >= sorted.length ? sorted[moving]! : 0;
  // The middle one leaves gaps out; of a clock that stands still, only the mean tells anything.
  let usual = grain > 0 ? sum(sorted) / sorted.length : sorted[Math.floor(sorted.length / 2)]!;
  let counting = forward;
  for (let round = 0; round < ROUNDS; round++) {
    counting = forward.filter(([step, blurred]) => step <= longest(1, usual, Math.max(blurred, grain)));
    usual = sum(counting.map(([step]) => step)) / counting.length;
  }
  const digits = Math.max(stamps[0]!.resolution, stamps.at(-1)!.resolution, grain);
  return { step: roundedStep(usual, digits / (counting.length * usual)), grain };
}

/** A whole number of Hz, where the digits of the times allow it. part: what the step may be off. */
function roundedStep(step: number, part: number): number {
  const rate = 1 / step;
  const whole = Math.round(rate);
  return whole > 0 && Math.abs(rate - whole) <= part * rate ? 1 / whole : step;
}

/** So long may the step over some rows be with no sample lost. */
function longest(rows: number, usual: number, blurred: number): number {
  return rows * usual + Math.max((GAP_STEPS - 1) * usual, blurred);
}

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}

/** A step between two times may be off by so much for the digits of both. A digit 0 at the end may be cut from one of them. */
function blur(before: Stamp, after: Stamp): number {
  return Math.min(before.resolution, after.resolution) + BINARY_PART * Math.abs(after.time);
}

export class Clock {
  private last: Stamp | null = null;
  /** Rows since, bad ones among them. */
  private rows = 0;
  private readonly gaps = new Places();
  private lostS = 0;
  private readonly backwards = new Places();
  private uneven = 0;
  private worst = 0;
  private steps = 0;
  private spanS = 0;
  private blurred = 0;
  private coarsest = 0;

  private readonly usual: number;
  private readonly grain: number;

  constructor({ step, grain }: Pace) {
    this.usual = step;
    this.grain = grain;
  }

  /** A row without a time that can be used. */
  skip(): void {
    this.rows += 1;
  }

  /** Whether the row follows the one before without a gap. */
  follow(stamp: Stamp, line: number): boolean {
    const { last, usual } = this;
    const rows = this.rows + 1;
    this.last = stamp;
    this.rows = 0;
    if (last === null) return true;
    const step = stamp.time - last.time;
    const blurred = Math.max(blur(last, stamp), this.grain);
    if (step < 0) {
      this.backwards.add(() => `line ${line}, from ${shown(last.time)} s to ${shown(stamp.time)} s`);
      return false;
    }
    if (step > longest(rows, usual, blurred)) {
      const lost = step - rows * usual;
      this.lostS += lost;
      this.gaps.add(
        () =>
          `line ${line}, at ${shown(last.time)} s, ${shown(lost)} s (${counted(Math.round(lost / usual), 'sample')})`,
      );
      return false;
    }
    if (rows === 1) this.count(step, blurred);
    return true;
  }

  private count(step: number, blurred: number): void {
    this.steps += 1;
    this.spanS += step;
    this.blurred = blurred;
    if (blurred > this.coarsest) this.coarsest = blurred;
    const off = Math.abs(step - this.usual) - blurred;
    if (off <= UNEVEN_PART * this.usual) return;
    this.uneven += 1;
    if (off > this.worst) this.worst = off;
  }

  /** ended: all rows have been followed. */
  findings(ended: boolean): Finding[] {
    const found: Finding[] = [];
    const { gaps, backwards, usual } = this;
    if (gaps.count > 0) {
      const says = `Samples are missing in ${counted(gaps.count, 'gap')}, ${shown(this.lostS)} s in all: ${gaps}. Each begins a new stretch.`;
      found.push(finding('doubts', 'gaps', `${says} Look for a recorder or a disk that is too slow.`));
    }
    if (backwards.count > 0) {
      const says = `Time runs backwards ${counted(backwards.count, 'time')}: ${backwards}. Are two recordings in one file?`;
      found.push(finding('doubts', 'time-backwards', says));
    }
    if (this.uneven > 0) {
      const how = `${counted(this.uneven, 'step')} of time differ by more than ${100 * UNEVEN_PART} % from the usual ${shown(1000 * usual)} ms`;
      const says = `${how}, at worst by ${shown((100 * this.worst) / usual)} %. The values take time as even; record with a steady clock.`;
      found.push(finding(this.uneven * UNEVEN_IN >= this.steps ? 'doubts' : 'notes', 'time-uneven', says));
    }
    if (ended) found.push(...this.atEnd());
    return found;
  }

  private atEnd(): Finding[] {
    const found: Finding[] = [];
    const mean = this.spanS / this.steps;
    if (Math.abs(mean / this.usual - 1) > DRIFT_PART + this.blurred / this.spanS) {
      const says = `The first rows tell ${shown(1 / this.usual)} Hz, and all rows ${shown(1 / mean)} Hz. Record with a steady clock.`;
      found.push(finding('doubts', 'rate-drifts', says));
    }
    if (this.coarsest > COARSE_PART * this.usual) {
      const says = `Times go in steps of ${shown(1000 * this.coarsest)} ms: shorter gaps cannot all be seen. Print finer times.`;
      found.push(finding('notes', 'time-coarse', says));
    }
    return found;
  }
}
