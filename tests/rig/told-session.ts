// A session that a wearable is told of by hand: there is no counter, the test says what its tallies say.
import { type Report, TALLY_FLAGS, type Tally } from '../../src/link/messages.js';
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

export class ToldSession {
  private dose = 0;
  private windows = 0;
  private unrated = 0;
  private sequence = 0;

  /** Pairs the wearable with a counter of that identity, all on the spot; no tally is told yet. */
  constructor(
    readonly wearable: WearableRig,
    readonly counter: number,
    readonly link: number,
    readonly session = 1,
  ) {
    const to = { counter, wearable: wearable.id };
    wearable.touch(counter);
    wearable.hear({ frame: 'answer', ...to, nonce: 1, link, session }, counter);
    wearable.tap();
    wearable.hear({ frame: 'accept', ...to, link }, counter);
  }

  /** A tally arrives now; returns it, so that it can arrive again. */
  tell(said: Said = {}): Tally {
    const tally = this.make(said);
    this.wearable.hear(tally, this.counter);
    return tally;
  }

  /** A tally that is on its way. */
  make(said: Said = {}): Tally {
    this.dose = said.dose ?? this.dose;
    this.windows = said.windows ?? this.windows;
    this.unrated = said.unrated ?? this.unrated;
    this.sequence = said.sequence ?? this.sequence + 1;
    return {
      frame: 'tally',
      link: this.link,
      sequence: this.sequence,
      dose: this.dose,
      triggerWindows: this.windows,
      unratedWindows: this.unrated,
      magnitudeTenths: 50,
      cell: 3,
      flags: (said.flags ?? []).reduce((bits, flag) => bits | TALLY_FLAGS[flag], 0),
    };
  }

  report(sequence: number): Report {
    const rest = { shortBursts: 1, powerLosses: 0, unclaimedDose: 0, unclaimedWindows: 0 };
    const report = { frame: 'report', link: this.link, sequence, ...rest } as const;
    this.wearable.hear(report, this.counter);
    return report;
  }
}

/** A session that the wearable has paired and heard of: its shift is open. */
export function toldSession(wearable: WearableRig, counter = 1, link = 100 + counter, session = 1): ToldSession {
  const told = new ToldSession(wearable, counter, link, session);
  told.tell();
  return told;
}
