// The world of one day, as plain data beside the devices: who is where, what runs, what the air does, what is due.

import { CHARACTERS } from '../../sim/handwork/levels.js';
import { type WindowState, windowState } from '../../sim/handwork/windows.js';
import type { ClockState } from '../../sim/kernel/clock.js';
import { newClock } from '../../sim/kernel/clock.js';
import { type AirConditions, CLEAR_AIR } from '../../sim/radio/radio.js';
import type { Message } from '../link/messages.js';
import type { CounterInput, Display, SensorState } from '../port/port.js';
import type { Day } from '../scenario/day.js';
import type { WearableInput } from '../wearable/wearable.js';
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

export interface ToolState {
  place: number;
  run: Run | null;
  window: WindowState;
  sensor: SensorState;
  /** Number of the sensor fault in force, so that an older one's end does not lift it. */
  sensorFault: number;
}

export interface WorkerState {
  place: number;
}

/** What is due in the world; devices keep their own deadlines. Indices name tools and workers, identities name devices. */
export type Occurrence =
  | { readonly of: 'stop'; readonly tool: number; readonly run: number }
  | { readonly of: 'window'; readonly tool: number; readonly cause: number }
  | {
      readonly of: 'arrival';
      readonly to: number;
      readonly from: number;
      readonly message: Message;
      readonly cause: number;
    }
  | { readonly of: 'counter input'; readonly tool: number; readonly input: CounterInput; readonly cause: number }
  | { readonly of: 'wearable input'; readonly worker: number; readonly input: WearableInput; readonly cause: number }
  | { readonly of: 'task'; readonly task: Task }
  | { readonly of: 'return'; readonly place: number }
  | { readonly of: 'clear air'; readonly tool: number; readonly worker: number; readonly fault: number }
  | { readonly of: 'good sensor'; readonly tool: number; readonly fault: number }
  | { readonly of: 'checkpoint' };

export interface Air extends AirConditions {
  /** Number of the fault in force, 0 for none. */
  readonly fault: number;
}

export interface World {
  readonly clock: ClockState<Occurrence>;
  readonly tools: ToolState[];
  readonly workers: WorkerState[];
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
const DARK: Display = { screen: '', value: -1, second: -1, icons: [] };

export function newWorld(day: Day): World {
  const devices = day.tools.length + day.workers.length;
  return {
    clock: newClock(),
    tools: day.tools.map((tool) => ({
      place: SITE,
      run: null,
      window: windowState(CHARACTERS[tool.hand].restingMm),
      sensor: 'good',
      sensorFault: 0,
    })),
    workers: day.workers.map(() => ({ place: SITE })),
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

export function clearAir(): Air {
  return CLEAR;
}
