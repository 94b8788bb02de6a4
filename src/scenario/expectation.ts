// What a scenario expects of its trace, as data. The reader makes these; src/judge/expectations weighs them.
// A quantity is a number at every moment, a condition holds or does not at every moment, a happening is an event.
import type { Place } from './place.js';

/** An exact decimal as written in the file: digits × 10^-places, so 19.25 is { digits: 1925, places: 2 }. */
export interface Decimal {
  readonly digits: number;
  readonly places: number;
}

export type Quantity =
  /** Points of the worker's open or last shift, exact (the ledger's dose over 180 000 000). */
  | { readonly of: 'points'; readonly worker: string }
  /** Dose in u on a worker's ledger for the shift. */
  | { readonly of: 'ledger dose'; readonly worker: string }
  /** Dose in u that a counter has counted: in one session by number, or in all and unclaimed where session is null. */
  | { readonly of: 'counter dose'; readonly tool: string; readonly session: number | null }
  /** Trigger time or unrated time counted by the counter, in ms. */
  | { readonly of: 'trigger time' | 'unrated time'; readonly tool: string; readonly session: number | null }
  /** Dose in u counted outside any session. */
  | { readonly of: 'unclaimed dose'; readonly tool: string }
  | { readonly of: 'short bursts'; readonly tool: string }
  /** The number on a display; a blank display has none and fulfils no comparison. */
  | { readonly of: 'display value'; readonly device: string }
  /** The second number on a counter's display: minutes left, or in the review the points of ten minutes. */
  | { readonly of: 'second number'; readonly tool: string }
  /** Power losses as the counter's last report told them (KEP-3). */
  | { readonly of: 'power losses'; readonly tool: string }
  /** Torn records skipped, and pages used no more, as the device told them when it last started (KEP-1, KEP-4). */
  | { readonly of: 'torn records' | 'retired pages'; readonly device: string }
  /** Frames that the device has dropped for this reason, or for any where it is null (TAL-4). */
  | { readonly of: 'refused frames'; readonly device: string; readonly reason: string | null };

export type Condition =
  | { readonly of: 'display screen'; readonly device: string; readonly is: string }
  | { readonly of: 'display icon'; readonly device: string; readonly has: string }
  | { readonly of: 'state'; readonly device: string; readonly region: string; readonly is: string };

export type Happening =
  /** level null: any level. */
  | { readonly of: 'alert'; readonly level: string | null; readonly worker: string }
  /** frame: tally, report, ack, hello, answer, accept, refuse; from and to are device names, null for any. */
  | { readonly of: 'message'; readonly frame: string; readonly from: string | null; readonly to: string | null }
  /** A day event or other trace event by kind, for example hand.return by Edda. */
  | { readonly of: 'event'; readonly kind: string; readonly by: string | null };

export type Comparison =
  | { readonly is: 'exactly'; readonly value: Decimal }
  | { readonly is: 'between'; readonly low: Decimal; readonly high: Decimal }
  | { readonly is: 'at least' | 'at most' | 'above' | 'below'; readonly value: Decimal };

/** A claim about one moment: a quantity compared, or a condition. */
export type Claim = { readonly quantity: Quantity; readonly compare: Comparison } | { readonly condition: Condition };

export type Expectation = {
  readonly place: Place;
  /** The expectation as written, on one line. */
  readonly text: string;
} & (
  | { readonly form: 'at'; readonly atMs: number; readonly claim: Claim }
  /** Holds at every moment of fromMs ≤ t < untilMs. */
  | { readonly form: 'always'; readonly fromMs: number; readonly untilMs: number; readonly claim: Claim }
  /** Never happens, or never holds, in fromMs ≤ t < untilMs. */
  | {
      readonly form: 'never';
      readonly fromMs: number;
      readonly untilMs: number;
      readonly claim: Claim | { readonly happening: Happening };
    }
  /** Happens, or comes to hold, no later than withinMs after the anchor (a time, or every occurrence of a happening). */
  | {
      readonly form: 'within';
      readonly withinMs: number;
      readonly after: { readonly atMs: number } | { readonly happening: Happening };
      readonly claim: Claim | { readonly happening: Happening };
    }
  /** The quantity at untilMs minus the quantity at fromMs. */
  | {
      readonly form: 'rises by';
      readonly fromMs: number;
      readonly untilMs: number;
      readonly quantity: Quantity;
      readonly compare: Comparison;
    }
);
