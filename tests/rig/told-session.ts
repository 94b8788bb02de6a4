// A session that a wearable is told of by hand: there is no counter, the test says what its tallies say.
import { type Secured, sealMessage } from '../../src/link/frames.js';
import { type Report, TALLY_FLAGS, type Tally } from '../../src/link/messages.js';
import { ToldCounter } from './told-counter.js';
import type { WearableRig } from './wearable-rig.js';

/** What a tally says; the sums are those of the tally before unless given. */
export interface Said {
  readonly dose?: number;
  readonly windows?: number;
  readonly unrated?: number;
  /** Names of TALLY_FLAGS. */
  readonly flags?: readonly (keyof typeof TALLY_FLAGS)[];
  readonly sequence?: number;
}

/** A frame that can arrive again, or late. */
export interface Told<M> {
  readonly message: M;
  readonly bytes: Uint8Array;
}

/** 50 m/s² make so many u in a ms; what was on its way may come so much earlier (TAL-7). */
const MOST_U_PER_MS = 500 * 500;
const SPARE_MS = 10_000;

export class ToldSession {
  /** What its frames are sealed with. */
  readonly secured: Secured;
  private readonly paired: ToldCounter;
  private dose = 0;
  private windows = 0;
  private unrated = 0;
  private sequence = 0;
  private toldMs: number;
  private toldDose = 0;

  /** Pairs the wearable with a counter of that identity, all on the spot; no tally is told yet. */
  constructor(
    readonly wearable: WearableRig,
    readonly counter: number,
    readonly link: number,
    readonly session = 1,
  ) {
    this.paired = new ToldCounter(wearable, counter, link, session);
    this.paired.pair();
    this.secured = this.paired.secured;
    this.toldMs = wearable.site.nowMs;
  }

  /** A tally arrives, as soon as a tool can have made its dose (TAL-7); returns it, so that it can arrive again. */
  tell(said: Said = {}): Told<Tally> {
    const { site } = this.wearable;
    const tally = this.make(said);
    const neededMs = Math.ceil((this.dose - this.toldDose) / MOST_U_PER_MS) - SPARE_MS;
    site.runTo(Math.max(site.nowMs, this.toldMs + neededMs));
    this.hear(tally);
    return tally;
  }

  /** A tally that is on its way. */
  make(said: Said = {}): Told<Tally> {
    this.dose = said.dose ?? this.dose;
    this.windows = said.windows ?? this.windows;
    this.unrated = said.unrated ?? this.unrated;
    this.sequence = said.sequence ?? this.sequence + 1;
    return this.seal({
      frame: 'tally',
      link: this.link,
      sequence: this.sequence,
      dose: this.dose,
      triggerWindows: Math.max(this.windows, this.unrated),
      unratedWindows: this.unrated,
      magnitudeTenths: 50,
      cell: 3,
      flags: (said.flags ?? []).reduce((bits, flag) => bits | TALLY_FLAGS[flag], 0),
    });
  }

  /** A tally arrives now. */
  hear({ message, bytes }: Told<Tally>): void {
    this.toldMs = this.wearable.site.nowMs;
    this.toldDose = message.dose;
    this.wearable.hear(bytes);
  }

  report(sequence: number, more: Partial<Report> = {}): Told<Report> {
    const rest = { shortBursts: 1, powerLosses: 0, unclaimedDose: 0, unclaimedWindows: 0 };
    const report = this.seal({ frame: 'report', link: this.link, sequence, ...rest, ...more } as const);
    this.wearable.hear(report.bytes);
    return report;
  }

  /** The counter says once more that it accepts. */
  accept(): void {
    this.paired.accept(this.secured);
  }

  private seal<M extends Tally | Report>(message: M): Told<M> {
    return { message, bytes: sealMessage(this.wearable.site.cipher, this.secured, message) };
  }
}

/** A session that the wearable has paired and heard of: its shift is open. */
export function toldSession(wearable: WearableRig, counter = 1, link = 100 + counter, session = 1): ToldSession {
  const told = new ToldSession(wearable, counter, link, session);
  told.tell();
  return told;
}
