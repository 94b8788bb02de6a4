// What crosses the air between a counter and a wearable, as values; a pairing's are in pairing-messages.ts, and README.md
// has all of them as bytes.
// Units: dose in u = (0.1 m/s²)²·ms, windows of 100 ms, magnitude in tenths of m/s² with 0 for "none committed".

/** Alert levels in rising order; the index travels in an acknowledgement. */
export const ALERT_LEVELS = ['none', 'notice', 'action', 'site', 'limit'] as const;
export type AlertLevel = (typeof ALERT_LEVELS)[number];

/** State of a session as its counter tells it (TAL-1). All sums are cumulative over the session. */
export interface Tally {
  readonly frame: 'tally';
  /** 16-bit name of the session's link, drawn by the counter at pairing. */
  readonly link: number;
  /** 32-bit, rises with every frame of the session and direction: by one, and after a restart past all that were reserved. */
  readonly sequence: number;
  /** 52 bits, saturating. */
  readonly dose: number;
  /** 28 bits each, saturating. */
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  /** 9 bits, 0 or 5..500. */
  readonly magnitudeTenths: number;
  /** 2 bits: 0 empty … 3 full. */
  readonly cell: number;
  /** Bits of TALLY_FLAGS. */
  readonly flags: number;
}

/** Flag bits of a tally, 9 in all. */
export const TALLY_FLAGS = {
  running: 1,
  sealed: 2,
  saturated: 4,
  shortBursts: 8,
  sensorFault: 16,
  unclaimed: 32,
  journalFault: 64,
  powerLost: 128,
} as const;

/** What a tally has no room for: sent beside a tally whose flags point at it, until one with the latest content is acknowledged. */
export interface Report {
  readonly frame: 'report';
  readonly link: number;
  readonly sequence: number;
  /** 16 bits, saturating. */
  readonly shortBursts: number;
  /** 16 bits, saturating. */
  readonly powerLosses: number;
  /** 52 bits, saturating. */
  readonly unclaimedDose: number;
  /** 28 bits, saturating: trigger time outside any session, rated or not. */
  readonly unclaimedWindows: number;
}

/** Wearable to counter (TAL-5). */
export interface Acknowledgement {
  readonly frame: 'ack';
  readonly link: number;
  readonly sequence: number;
  /** Highest sequence of a tally, and of a report, seen on this link; 0 for none. */
  readonly highest: number;
  readonly highestReport: number;
  /** Index into ALERT_LEVELS. */
  readonly level: number;
  /** Tenths of a point to the next level, rounded down; 0 where none is left. */
  readonly leftTenths: number;
  /** The wearer has closed the shift this session belongs to. */
  readonly closed: boolean;
}

export const REFUSE_REASONS = ['busy', 'running', 'full'] as const;
export type RefuseReason = (typeof REFUSE_REASONS)[number];

/** Every kind of frame by name, in the order in which a session meets them. */
export const FRAMES = ['hello', 'answer', 'nonce', 'reveal', 'accept', 'refuse', 'tally', 'report', 'ack'] as const;
export type FrameName = (typeof FRAMES)[number];
