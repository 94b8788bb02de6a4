// The kinds of event a trace is made of: for each kind its fields, in the sorted order in which they are written.
// This table is the format: the types, the canonical text and the reader's checks all come from it.
// Units: Ms are integer milliseconds, dose in u = (0.1 m/s²)²·ms, Windows are 100 ms each, Tenths are 0.1 m/s².
// `by` names a tool's counter by the tool's name, a wearable by its worker's name, and the world itself by "bench".

export type FieldType = 'number' | 'text' | 'hex' | 'flag' | 'texts' | 'levels';

/** One alert level of a worker: how many points, and whether reaching it is enough. */
export interface LevelField {
  readonly compare: 'reached' | 'exceeded';
  readonly level: string;
  readonly points: number;
}

interface FieldTypes {
  number: number;
  text: string;
  /** Bytes in hexadecimal, lower case. */
  hex: string;
  flag: boolean;
  texts: readonly string[];
  levels: readonly LevelField[];
}

/** Fields beside at, by, cause, kind and n, which every event has. */
export const KINDS = {
  // What truly happened. hand.day comes first, then one hand.tool a tool and one hand.worker a worker.
  'hand.day': { fromMs: 'number', regime: 'text', seed: 'number', untilMs: 'number' },
  'hand.tool': { character: 'text', keyedTenths: 'number', magnitudeTenths: 'number' },
  'hand.worker': { levels: 'levels' },
  /** by a worker; held false: the tool runs but lies on the ground. */
  'hand.start': { held: 'flag', tool: 'text' },
  'hand.stop': { tool: 'text' },
  /** by a tool: it lies in a van that drives, shaken but at rest, until it has arrived. */
  'hand.carry': {},
  'hand.arrive': {},
  /** by the tool whose ring is pressed, or turned. */
  'hand.press': { forMs: 'number' },
  'hand.turn': { detents: 'number' },
  'hand.touch': { tool: 'text' },
  'hand.tap': { forMs: 'number' },
  /** A wearable (WEA-3) or a counter (PAI-7) lies in its reader. */
  'hand.readout': {},
  'hand.leave': { who: 'texts' },
  'hand.return': { who: 'texts' },
  /** by the tool or worker whose macro of gestures (set, pair, close) begins or ends; verb as in the scenario. */
  'hand.begins': { verb: 'text' },
  'hand.done': { verb: 'text' },
  /** An event of the day that could not happen; reason is a word from NOTHING_REASONS in src/bench. */
  'hand.nothing': { reason: 'text', verb: 'text' },

  // Logical inputs as they reach a device (after the panel's gesture table).
  'input.push': {},
  'input.hold': {},
  'input.turn': { detents: 'number' },
  'input.touch': { peer: 'text' },
  'input.tap': {},
  'input.close': {},
  'input.readout': {},

  // What can be seen or heard from outside. value and second are -1 where that place of the display is blank.
  'shown.display': { icons: 'texts', screen: 'text', second: 'number', value: 'number' },
  /** again counts the repetitions of an alert nobody has acknowledged; 0 is the first. */
  'shown.alert': { again: 'number', level: 'text' },
  /** A wearable's mark on one of its counters: "stale". */
  'shown.mark': { counter: 'text', mark: 'text', on: 'flag' },
  /** The record that a device hands to its reader (PAI-7, WEA-4), in hexadecimal. */
  'shown.record': { bytes: 'hex' },

  // The air. The sending event carries the content, and the frame's bytes in hexadecimal; what becomes of it has the sending
  // event as its cause.
  'air.tally': {
    bytes: 'hex',
    cell: 'number',
    dose: 'number',
    flags: 'number',
    link: 'number',
    magnitudeTenths: 'number',
    sequence: 'number',
    session: 'number',
    to: 'text',
    triggerWindows: 'number',
    unratedWindows: 'number',
  },
  'air.report': {
    bytes: 'hex',
    link: 'number',
    powerLosses: 'number',
    sequence: 'number',
    session: 'number',
    shortBursts: 'number',
    to: 'text',
    unclaimedDose: 'number',
    unclaimedWindows: 'number',
  },
  'air.ack': {
    bytes: 'hex',
    closed: 'flag',
    highest: 'number',
    highestReport: 'number',
    leftTenths: 'number',
    level: 'number',
    link: 'number',
    sequence: 'number',
    to: 'text',
  },
  'air.pairing': { bytes: 'hex', frame: 'text', to: 'text' },
  /** A frame that an attacker sends; how as in the scenario. */
  'air.injected': { bytes: 'hex', how: 'text', to: 'text' },
  /** frame: what the sender called it, "injected" for an attacker's; from: the sender, "bench" for an attacker. */
  'air.heard': { frame: 'text', from: 'text' },
  'air.lost': { frame: 'text', reason: 'text', to: 'text' },
  /** A frame that arrived and was dropped by the device, with the reason it counts under. */
  'air.refused': { frame: 'text', from: 'text', reason: 'text' },

  // Flash, by the device whose it is.
  'flash.erase': { page: 'number' },
  /**
   * A device has started, and told what it found: records that count, torn ones that it skipped, pages it uses no more
   * (KEP-4).
   */
  'flash.recovered': { records: 'number', retired: 'number', torn: 'number' },

  // Faults of the world as the scenario orders them.
  /** by a device: a fault is planned that comes with what the device does next ("cut write", "cut erase"). */
  'fault.planned': { what: 'text' },
  /** by a device: its power fails; during is "now", "write", "erase", "exchange" or "brown-out". */
  'fault.cut': { during: 'text' },
  'fault.cell': { percent: 'number' },
  'fault.clock': { driftPpm: 'number', ppm: 'number' },
  'fault.page': { page: 'number' },
  'fault.attack': { everyMs: 'number', how: 'text', worker: 'text' },
  'fault.air': {
    delayFromMs: 'number',
    delayToMs: 'number',
    duplicateDen: 'number',
    duplicateNum: 'number',
    errorDen: 'number',
    errorNum: 'number',
    lossDen: 'number',
    lossNum: 'number',
    worker: 'text',
  },
  'fault.sensor': { fault: 'text' },
  /** by the tool or device; what names the fault that ended ("power", "clock", "sensor", "attack Bram", "air Bram"). */
  'fault.lifted': { what: 'text' },

  // State of the model. Firmware need not have these.
  /** A region of a statechart is in another state. */
  'inner.state': { region: 'text', state: 'text' },
  /**
   * A counter's sums for its current session (session 0: unclaimed): at each confirmed start and stop, at a sealing, at the
   * moment in which its power fails, and once it has started again.
   */
  'inner.count': {
    dose: 'number',
    session: 'number',
    shortBursts: 'number',
    triggerWindows: 'number',
    unratedWindows: 'number',
  },
  /** by a counter: its journal holds these sums of a session now, or the sealed session that has them (session 0: unclaimed). */
  'inner.kept': { dose: 'number', session: 'number', triggerWindows: 'number', unratedWindows: 'number' },
  /** by a counter: a magnitude came into force; tenths 0 is none. */
  'inner.magnitude': { tenths: 'number' },
  /** by a counter: what is "opened", "sealed" (kept, on its way), "delivered" (acknowledged and let go) or "read out". */
  'inner.session': { session: 'number', what: 'text', with: 'text' },
  /** by a counter that has just started: a session that its journal holds, "opened" or "sealed". */
  'inner.found': { session: 'number', what: 'text', with: 'text' },
  /**
   * by a wearable: it keeps the key of a session, whose dose goes to this shift. Told again at each start as long as no tally
   * has come under it.
   */
  'inner.paired': { counter: 'text', session: 'number', shift: 'number' },
  /** by a wearable that has just started: its newest shift, whether that is open, and its dose. */
  'inner.resumed': { dose: 'number', open: 'flag', shift: 'number' },
  /** by a wearable: an entry of its ledger grew, or was found at a start; total is the dose of the shift it belongs to. */
  'inner.ledger': {
    counter: 'text',
    dose: 'number',
    session: 'number',
    shift: 'number',
    total: 'number',
    triggerWindows: 'number',
    unratedWindows: 'number',
  },
  /** by a wearable: what is "opened", "closed" or "long" (over 16 h). */
  'inner.shift': { shift: 'number', what: 'text' },
  /** by a wearable: the shift is marked incomplete because a counter told of it (short bursts, a sensor fault …). */
  'inner.incomplete': { counter: 'text', shift: 'number', why: 'text' },
  /** Every minute: digest over all device states, the queue and the positions of the random streams. */
  'inner.checkpoint': { digest: 'text' },
} as const satisfies Record<string, Record<string, FieldType>>;

export type Kind = keyof typeof KINDS;

export type Fields<K extends Kind> = {
  readonly [F in keyof (typeof KINDS)[K]]: (typeof KINDS)[K][F] extends FieldType
    ? FieldTypes[(typeof KINDS)[K][F]]
    : never;
};

/** What every event has: sequence from 1, ms since the start, whose it is, and the n of the event that caused it (0: none). */
interface Common<K extends Kind> {
  readonly n: number;
  readonly at: number;
  readonly by: string;
  readonly kind: K;
  readonly cause: number;
}

export type EventOf<K extends Kind> = Common<K> & Fields<K>;

/** Any event of a trace. */
export type TraceEvent = { [K in Kind]: EventOf<K> }[Kind];
