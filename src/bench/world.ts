// The world of one day, as plain data beside the devices: who is where, what runs, what the air does, what is due.
import { type CellState, LOAD_MICROAMPS, newCell, voltageMv } from '../../sim/cell/cell.js';
import type { Motion } from '../../sim/handwork/acceleration.js';
import type { FrontEndState } from '../../sim/handwork/front-end.js';
import { CHARACTERS } from '../../sim/handwork/levels.js';
import { type WindowState, windowState } from '../../sim/handwork/windows.js';
import type { ClockState } from '../../sim/kernel/clock.js';
import { newClock } from '../../sim/kernel/clock.js';
import { type OscillatorState, TRUE_OSCILLATOR } from '../../sim/oscillator/oscillator.js';
import { type AttackerState, newAttacker } from '../../sim/radio/attacker.js';
import { type AirConditions, CLEAR_AIR } from '../../sim/radio/radio.js';
import type { CounterInput, Display, SensorState } from '../port/port.js';
import type { Refusal } from '../port/refusals.js';
import type { Day } from '../scenario/day.js';
import type { WearableInput } from '../wearable/wearable.js';
import type { AttackState } from './attacks/state.js';
import type { Task } from './task.js';

/** Where everybody is who has not left. */
export const SITE = 0;

export interface Run {
  /** Index of the worker. */
  readonly worker: number;
  /** False where the tool runs on the ground. */
  readonly held: boolean;
  /** Number of the run in the day. */
  readonly run: number;
}

/** A window that was made of samples, and what the counter's front end remembered before and after it. */
export interface Heard {
  readonly fromMs: number;
  readonly toMs: number;
  readonly before: FrontEndState;
  readonly after: FrontEndState;
}

export interface ToolState {
  place: number;
  run: Run | null;
  /** It lies in a van that drives. */
  carried: boolean;
  window: WindowState;
  /** What has moved it of late, where windows come from samples; none: they read the level of `window`. */
  motions: readonly Motion[];
  heard: Heard | null;
  /** Number of the latest plan of when the window that is made of samples ends. */
  samplePlan: number;
  sensor: SensorState;
  /** Number of the sensor fault in force, so that an older one's end does not lift it. */
  sensorFault: number;
  /** A hand is at the ring until then. */
  ringFreeMs: number;
}

export interface WorkerState {
  place: number;
}

/** What keeps a device going, beside its flash. */
export interface DeviceState {
  on: boolean;
  /** How often its power has failed: what was planned before the last failure is void. */
  starts: number;
  clock: OscillatorState;
  /** Number of the clock fault in force, so that an older one's end does not lift it. */
  clockFault: number;
  cell: CellState;
  /** Number of the latest plan of when its voltage will mean something else; 0 for none: the full cell of the beginning. */
  cellPlan: number;
  /** Under working load. */
  cellMv: number;
  /** How long the power stays away that is to fail within the next operation of the flash; null where it is not to. */
  plannedCutMs: number | null;
  /** Frames dropped, by reason (TAL-4). */
  readonly refused: { [reason in Refusal]?: number };
}

/** What is due in the world; devices keep their own deadlines. Indices name tools and workers, identities name devices. */
export type Occurrence =
  | { readonly of: 'stop'; readonly tool: number; readonly run: number }
  /** A window that vibration changed within ends, at endsMs of the counter's clock. */
  | {
      readonly of: 'window';
      readonly tool: number;
      readonly endsMs: number;
      readonly start: number;
      readonly cause: number;
    }
  /** A window that is made of samples ends, at endsMs of the counter's clock. */
  | {
      readonly of: 'sampled window';
      readonly tool: number;
      readonly endsMs: number;
      readonly plan: number;
      readonly cause: number;
    }
  | { readonly of: 'set down'; readonly tool: number }
  | {
      readonly of: 'arrival';
      readonly to: number;
      /** As the trace has it: what the sender calls the frame, and who that is. */
      readonly from: string;
      readonly frame: string;
      readonly bytes: Uint8Array;
      readonly cause: number;
    }
  | { readonly of: 'counter input'; readonly tool: number; readonly input: CounterInput; readonly cause: number }
  | { readonly of: 'wearable input'; readonly worker: number; readonly input: WearableInput; readonly cause: number }
  | { readonly of: 'task'; readonly task: Task }
  | { readonly of: 'return'; readonly place: number }
  | { readonly of: 'clear air'; readonly tool: number; readonly worker: number; readonly fault: number }
  | { readonly of: 'good sensor'; readonly tool: number; readonly fault: number }
  | { readonly of: 'power'; readonly device: number; readonly start: number }
  | { readonly of: 'erased'; readonly device: number; readonly start: number }
  | { readonly of: 'cell'; readonly device: number; readonly plan: number }
  | { readonly of: 'drift'; readonly device: number; readonly fault: number; readonly drift: Drift }
  | { readonly of: 'true clock'; readonly device: number; readonly fault: number }
  | { readonly of: 'attack'; readonly attack: number }
  | { readonly of: 'attack over'; readonly attack: number }
  | { readonly of: 'checkpoint' };

/** A rate that began with ppm at sinceMs and gains driftPpm in each hour. */
export interface Drift {
  readonly ppm: number;
  readonly driftPpm: number;
  readonly sinceMs: number;
}

export interface Air extends AirConditions {
  /** Number of the fault in force, 0 for none. */
  readonly fault: number;
}

export interface World {
  readonly clock: ClockState<Occurrence>;
  readonly tools: ToolState[];
  readonly workers: WorkerState[];
  /** By identity - 1. */
  readonly devices: DeviceState[];
  /** What the frame that is arriving is called, and by whom it was sent, for the trace. */
  arriving: { readonly frame: string; readonly from: string };
  /** By tool, then by worker: who listens to the two, null where no attack of the day is on them. */
  readonly attackers: (AttackerState | null)[][];
  readonly attacks: AttackState[];
  /** By tool, then by worker. */
  readonly air: Air[][];
  /** By device identity - 1: when it wants to be woken, what it shows, the n of the last event from outside that reached it. */
  readonly wakesMs: number[];
  readonly displays: Display[];
  readonly causes: number[];
  /** Tools on which a task of several gestures is under way. */
  readonly busy: boolean[];
  /** By tool: the session of each link that its counter has offered. */
  readonly sessions: Map<number, number>[];
  /** Index of the day's next event. */
  nextEvent: number;
  /** Numbers given out so far. */
  lastRun: number;
  lastPlace: number;
  lastFault: number;
  /** n of the event that what is happening now is caused by, 0 for none. */
  cause: number;
}

const CLEAR: Air = { ...CLEAR_AIR, fault: 0 };
/** A display without power. */
export const DARK: Display = { screen: 'dark', value: -1, second: -1, icons: [] };

export function newWorld(day: Day): World {
  const devices = day.tools.length + day.workers.length;
  return {
    clock: newClock(),
    tools: day.tools.map((tool) => ({
      place: SITE,
      run: null,
      carried: false,
      motions: [],
      heard: null,
      samplePlan: 0,
      window: windowState(CHARACTERS[tool.hand].restingMm),
      sensor: 'good',
      sensorFault: 0,
      ringFreeMs: 0,
    })),
    workers: day.workers.map(() => ({ place: SITE })),
    devices: Array.from({ length: devices }, newDevice),
    arriving: { frame: '', from: '' },
    attackers: day.tools.map((tool, index) =>
      day.workers.map((worker, other) => {
        const attacked = day.events.some(
          (event) => event.do === 'attack' && event.tool === tool.name && event.worker === worker.name,
        );
        return attacked ? newAttacker(index + 1, day.tools.length + other + 1) : null;
      }),
    ),
    attacks: [],
    air: day.tools.map(() => day.workers.map(() => CLEAR)),
    wakesMs: Array.from({ length: devices }, () => Infinity),
    displays: Array.from({ length: devices }, () => DARK),
    causes: Array.from({ length: devices }, () => 0),
    busy: day.tools.map(() => false),
    sessions: day.tools.map(() => new Map()),
    nextEvent: 0,
    lastRun: 0,
    lastPlace: SITE,
    lastFault: 0,
    cause: 0,
  };
}

function newDevice(): DeviceState {
  const cell = newCell(0, 100, LOAD_MICROAMPS.resting);
  return {
    on: true,
    starts: 0,
    clock: TRUE_OSCILLATOR,
    clockFault: 0,
    cell,
    cellPlan: 0,
    cellMv: voltageMv(cell, 0, LOAD_MICROAMPS.peak),
    plannedCutMs: null,
    refused: {},
  };
}

export function clearAir(): Air {
  return CLEAR;
}
