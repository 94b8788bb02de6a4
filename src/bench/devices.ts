// The devices of a day, each in its socket: a board through which it acts on the world, and a window for the trace into the
// model's own state.
import { ModelCounter } from '../counter/counter.js';
import type { AlertLevel, Message } from '../link/messages.js';
import type { EngineMaker } from '../port/engine.js';
import type { CounterInner, WearableInner } from '../port/inner.js';
import type { Board, Display } from '../port/port.js';
import type { WearableBoard } from '../wearable/parts.js';
import { Wearable } from '../wearable/wearable.js';
import { send } from './air.js';
import { levelsFor } from './levels.js';
import { counterId, nameOf, type Stage, wearableId } from './stage.js';

export function newCounter(stage: Stage, tool: number, engine: EngineMaker): ModelCounter {
  return new ModelCounter(boardOf(stage, counterId(tool)), counterInner(stage, tool), engine);
}

export function newWearable(stage: Stage, worker: number, engine: EngineMaker): Wearable {
  return new Wearable(wearableBoard(stage, worker), wearableInner(stage, worker), engine);
}

export function copyCounter(stage: Stage, tool: number, original: ModelCounter): ModelCounter {
  return original.fork(boardOf(stage, counterId(tool)), counterInner(stage, tool));
}

export function copyWearable(stage: Stage, worker: number, original: Wearable): Wearable {
  return original.fork(wearableBoard(stage, worker), wearableInner(stage, worker));
}

/** Switches every device on; the day has begun. */
export function bootAll(stage: Stage): void {
  const { day } = stage;
  day.tools.forEach((tool, index) => {
    stage.counters[index]!.boot({ id: counterId(index), keyedTenths: tool.keyedTenths ?? 0 });
  });
  day.workers.forEach((worker, index) => {
    stage.wearables[index]!.boot(wearableId(stage, index), levelsFor(day.regime, worker));
  });
}

function boardOf(stage: Stage, id: number): Board {
  const { world, tracer } = stage;
  const by = nameOf(stage, id);
  const random = stage.random.devices[id - 1]!;
  return {
    show: (display: Display) => {
      world.displays[id - 1] = display;
      const { icons, screen, second, value } = display;
      tracer?.add(by, 'shown.display', { icons, screen, second, value });
    },
    send: (message: Message, to: number) => send(stage, id, to, message),
    refused: (message: Message, from: number, reason: string) => {
      tracer?.add(by, 'air.refused', { frame: message.frame, from: nameOf(stage, from), reason });
    },
    random: () => random.bits(),
  };
}

function wearableBoard(stage: Stage, worker: number): WearableBoard {
  const { tracer } = stage;
  const by = stage.day.workers[worker]!.name;
  return {
    ...boardOf(stage, wearableId(stage, worker)),
    alert: (level: AlertLevel, again: number) => {
      tracer?.add(by, 'shown.alert', { again, level });
    },
    mark: (counter: number, mark: string, on: boolean) => {
      tracer?.add(by, 'shown.mark', { counter: nameOf(stage, counter), mark, on });
    },
  };
}

function counterInner(stage: Stage, tool: number): CounterInner {
  const { tracer } = stage;
  const by = stage.day.tools[tool]!.name;
  return {
    state: (region, state) => {
      tracer?.add(by, 'inner.state', { region, state });
    },
    count: (session, { dose, shortBursts, triggerWindows, unratedWindows }) => {
      tracer?.add(by, 'inner.count', { dose, session, shortBursts, triggerWindows, unratedWindows });
    },
    magnitude: (tenths) => {
      tracer?.add(by, 'inner.magnitude', { tenths });
    },
    session: (session, what, wearable) => {
      tracer?.add(by, 'inner.session', { session, what, with: nameOf(stage, wearable) });
    },
  };
}

function wearableInner(stage: Stage, worker: number): WearableInner {
  const { tracer } = stage;
  const by = stage.day.workers[worker]!.name;
  return {
    state: (region, state) => {
      tracer?.add(by, 'inner.state', { region, state });
    },
    ledger: ({ counter, dose, session, shift, triggerWindows, unratedWindows }, total) => {
      tracer?.add(by, 'inner.ledger', {
        counter: nameOf(stage, counter),
        dose,
        session,
        shift,
        total,
        triggerWindows,
        unratedWindows,
      });
    },
    shift: (shift, what) => {
      tracer?.add(by, 'inner.shift', { shift, what });
    },
    incomplete: (shift, counter, why) => {
      tracer?.add(by, 'inner.incomplete', { counter: nameOf(stage, counter), shift, why });
    },
  };
}
