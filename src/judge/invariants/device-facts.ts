// What a trace has told so far of one device as a thing with a cell, a clock and a flash: whether it has power and is awake,
// and what of all that it told its last power failure may have taken back (KEP-1).
import type { EventOf } from '../../trace/kinds.js';
import { ClockFacts } from './clock-facts.js';

/** While a page is erased what is told waits to be kept (KEP-5): for 100 ms of the device's clock, and where that was too short once more. */
const ERASE_MS = 250;
const NEVER = Number.NEGATIVE_INFINITY;

export class DeviceFacts {
  readonly clock = new ClockFacts();
  on = true;
  asleep = false;
  /** When it was given power or woke last. */
  awakeSinceMs = 0;
  /** Its journal can keep nothing any more, and it says so (KEP-4). */
  journalFailed = false;
  /** What it shows. */
  screen = '';
  value = -1;
  /** Power failures so far; the last one, and what the device was about then: "now", "write", "erase" … */
  failures = 0;
  failedMs = NEVER;
  failedDuring = '';
  /** It has power again and tells what it has found. */
  starting = false;
  startedMs = 0;
  /** What it told since then was not kept yet when its power failed, and may never have been: Infinity for nothing. */
  undoneSinceMs = Number.POSITIVE_INFINITY;
  /** It drops sealed frames unread for a while, after too many wrong ones (TAL-7). */
  private throttledMs = NEVER;
  /** Erases that follow each other began then, and the last of them. */
  private erasingSinceMs = NEVER;
  private eraseMs = NEVER;
  private asleepSinceMs = NEVER;

  constructor(readonly name: string) {}

  get awake(): boolean {
    return this.on && !this.asleep;
  }

  /** Since when it could do all that it should, Infinity where it cannot now. */
  get readySinceMs(): number {
    return this.awake && !this.journalFailed ? Math.max(this.awakeSinceMs, this.throttledMs) : Number.POSITIVE_INFINITY;
  }

  /** Power failed within an operation of the flash: what it was about may be done, and it could tell nothing of it. */
  get untold(): boolean {
    return this.failedDuring === 'write' || this.failedDuring === 'erase';
  }

  /** Since when what it tells may not be kept yet; Infinity where all that it tells is kept at once. */
  unkeptSinceMs(nowMs: number): number {
    if (this.journalFailed) return NEVER;
    if (this.asleep) return this.asleepSinceMs;
    return nowMs - this.eraseMs <= ERASE_MS ? this.erasingSinceMs : Number.POSITIVE_INFINITY;
  }

  show({ at, screen, value, icons }: EventOf<'shown.display'>): void {
    this.screen = screen;
    this.value = value;
    if (!this.on) return;
    this.journalFailed ||= icons.includes('journal');
    if ((screen === 'asleep') === this.asleep) return;
    if (!this.asleep) this.asleepSinceMs = Math.min(at, this.unkeptSinceMs(at));
    this.asleep = !this.asleep;
    this.awakeSinceMs = at;
  }

  erase(atMs: number): void {
    // What waits since before it slept waits on.
    if (this.unkeptSinceMs(atMs) === Number.POSITIVE_INFINITY) this.erasingSinceMs = atMs;
    else if (this.asleep) this.erasingSinceMs = this.asleepSinceMs;
    this.eraseMs = atMs;
  }

  fail({ at, during }: EventOf<'fault.cut'>): void {
    if (!this.on) return;
    this.undoneSinceMs = this.unkeptSinceMs(at);
    this.on = false;
    this.asleep = false;
    this.failures += 1;
    this.failedMs = at;
    this.failedDuring = during;
    this.eraseMs = NEVER;
  }

  start(atMs: number): void {
    this.on = true;
    this.starting = true;
    this.journalFailed = false;
    this.startedMs = atMs;
    this.awakeSinceMs = atMs;
    this.throttledMs = NEVER;
  }

  throttle(atMs: number): void {
    this.throttledMs = atMs;
  }
}
