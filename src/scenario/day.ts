// A working day as plain data: what the reader makes of a scenario file, what the bench runs, what shrinking cuts.
// Every event stands alone: its time is absolute, nothing refers to another event, so that any of them may be deleted.
// Units: times in integer ms since the start of the day, magnitudes in tenths of m/s², probabilities as ratios.

/** How a tool's vibration behaves in the hand; the levels behind the names live in sim/handwork. */
export const HAND_CHARACTERS = ['rotary', 'percussive', 'impact'] as const;
export type HandCharacter = (typeof HAND_CHARACTERS)[number];

/** What a tool's windows may be made of sample by sample: vibrations of sim/handwork. */
export const SAMPLED_VIBRATIONS = ['rotary', 'percussive', 'impact', 'idling'] as const;
export type SampledVibration = (typeof SAMPLED_VIBRATIONS)[number];

export interface ToolSpec {
  readonly name: string;
  readonly hand: HandCharacter;
  /** Where it is there, windows come from samples of this vibration, else from the level of `hand`. */
  readonly samples?: SampledVibration;
  /** What the tool truly makes at the handle, tenths of m/s² (5..500). */
  readonly magnitudeTenths: number;
  /** What the counter was keyed with before the day began; null where it was never set. */
  readonly keyedTenths: number | null;
}

export interface WorkerSpec {
  readonly name: string;
  /** Points of the notice level, 1..1000. */
  readonly noticePoints: number;
  /** Points of the site's own limit, or null where the site has none. */
  readonly sitePoints: number | null;
}

/** A probability as written: 1/2 is { num: 1, den: 2 }. */
export interface Ratio {
  readonly num: number;
  readonly den: number;
}

/** What the air between one counter and one wearable does from a moment on. */
export interface AirFault {
  readonly loss: Ratio;
  readonly duplicate: Ratio;
  /** That a frame which arrives has some of its bits changed. */
  readonly errors: Ratio;
  /** Each frame arrives after a delay drawn from delayMs[0]..delayMs[1]; a wide span reorders frames. */
  readonly delayMs: readonly [number, number];
}

export const SENSOR_FAULTS = ['silent', 'frozen', 'clipped'] as const;
export type SensorFault = (typeof SENSOR_FAULTS)[number];

/** When power fails: at once, or within the next write to the flash or the next erase of it. */
export const CUT_MOMENTS = ['now', 'write', 'erase'] as const;
export type CutMoment = (typeof CUT_MOMENTS)[number];

/**
 * What somebody in the air does to a counter and a wearable: sends frames heard before again, sends them changed, makes up
 * frames, sends nonsense, or stands in the middle of every pairing that begins in that time.
 */
export const ATTACKS = ['replay', 'alter', 'forge', 'flood', 'middle'] as const;
export type Attack = (typeof ATTACKS)[number];

interface At {
  readonly atMs: number;
}

/**
 * The events of a day. A `device` is a tool's name for its counter, a worker's for the wearable. `forMs` bounds an event
 * from within; null means "until something else ends it, or the day does". An event that cannot happen when its time comes
 * (a tool that already runs, a wearable that is away) comes to nothing and is traced as such.
 */
export type DayEvent = At &
  (
    | { readonly do: 'run'; readonly tool: string; readonly by: string; readonly forMs: number; readonly held: boolean }
    | { readonly do: 'set'; readonly tool: string; readonly toTenths: number }
    | { readonly do: 'pair'; readonly tool: string; readonly with: string }
    | { readonly do: 'press'; readonly tool: string; readonly forMs: number }
    | { readonly do: 'turn'; readonly tool: string; readonly detents: number; readonly everyMs: number }
    | { readonly do: 'touch'; readonly tool: string; readonly with: string }
    | { readonly do: 'tap'; readonly worker: string; readonly forMs: number }
    | { readonly do: 'close'; readonly worker: string }
    | { readonly do: 'readout'; readonly device: string }
    /** The tool lies in a van that drives: it is shaken, and does not run. */
    | { readonly do: 'carry'; readonly tool: string; readonly forMs: number }
    | { readonly do: 'leave'; readonly who: readonly string[]; readonly forMs: number | null }
    | { readonly do: 'return'; readonly who: readonly string[] }
    | ({
        readonly do: 'air';
        readonly tool: string;
        readonly worker: string;
        readonly forMs: number | null;
      } & AirFault)
    | { readonly do: 'sensor'; readonly tool: string; readonly fault: SensorFault; readonly forMs: number }
    | {
        readonly do: 'cut';
        readonly device: string;
        readonly when: CutMoment;
        /** Bytes still written before power fails, 0..65 536; 0 unless it fails within a write. */
        readonly afterBytes: number;
        /** From the failure until power is back. */
        readonly forMs: number;
      }
    /** toPercent: what is left in the cell from now on, 0..100. */
    | { readonly do: 'cell'; readonly device: string; readonly toPercent: number }
    /** The cell is taken out now, and a full one is in forMs later. */
    | { readonly do: 'exchange'; readonly device: string; readonly forMs: number }
    | {
        readonly do: 'clock';
        readonly device: string;
        /** Error of the rate in parts per million, -20 000..20 000; above 0 the clock runs fast. */
        readonly ppm: number;
        /** What is added to it in each hour, -1000..1000. */
        readonly driftPpm: number;
        readonly forMs: number | null;
      }
    /** A page of the flash goes bad for good; page 0..15. */
    | { readonly do: 'flash'; readonly device: string; readonly page: number }
    | {
        readonly do: 'attack';
        readonly how: Attack;
        readonly tool: string;
        readonly worker: string;
        /** From one frame of the attacker to the next, at least 10; 0 for 'middle', which sends none by itself. */
        readonly everyMs: number;
        readonly forMs: number;
      }
  );

export type DayVerb = DayEvent['do'];

export interface Day {
  /** Time of day at which virtual time 0 lies, ms after midnight, 0..86 399 999. */
  readonly fromMs: number;
  /** Length of the day in ms since the start; nothing happens at or after it. */
  readonly untilMs: number;
  /** 0..4 294 967 295 */
  readonly seed: number;
  /** Identifier of an exposure regime, see src/exposure/regimes.ts. */
  readonly regime: string;
  readonly tools: readonly ToolSpec[];
  readonly workers: readonly WorkerSpec[];
  /** Ordered by atMs; of two at the same time the one written first stands first. */
  readonly events: readonly DayEvent[];
}
