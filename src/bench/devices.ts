// The devices of a day, each in its socket: a board through which it acts on the world, and a window for the trace into the
// model's own state.
import { type FlashTold, newFlash, SimFlash } from '../../sim/flash/flash.js';
import { GEOMETRY } from '../../sim/flash/geometry.js';
import { RandomStream } from '../../sim/kernel/random.js';
import type { AlertLevel } from '../link/messages.js';
import type { Message } from '../link/pairing-messages.js';
import type { CounterInner, WearableInner } from '../port/inner.js';
import type { Board, CounterBoard, Display } from '../port/port.js';
import type { Refusal } from '../port/refusals.js';
import type { WearableBoard } from '../wearable/parts.js';
import { Wearable } from '../wearable/wearable.js';
import { send } from './air.js';
import { hexText } from './hex.js';
import { levelsFor } from './levels.js';
import { powerFails } from './power/fails.js';
import { counterId, deviceState, isCounter, nameOf, type Stage, wearableId, workerOf } from './stage.js';

/** Puts a device that has just been given power into its socket and starts it. */
export function startDevice(stage: Stage, id: number): void {
  const { day, workshop } = stage;
  const { cellMv } = deviceState(stage, id);
  if (isCounter(stage, id)) {
    const counter = workshop.counter(counterBoard(stage, id - 1));
    stage.counters[id - 1] = counter;
    counter.boot({ id, keyedTenths: day.tools[id - 1]!.keyedTenths ?? 0 }, cellMv);
  } else {
    const worker = workerOf(stage, id);
    const wearable = new Wearable(wearableBoard(stage, worker), workshop.engine);
    stage.wearables[worker] = wearable;
    wearable.boot(id, levelsFor(day.regime, day.workers[worker]!), cellMv);
  }
}

/** Copies of the devices of another stage, in the sockets of this one. */
export function copyDevices(stage: Stage, from: Stage): void {
  stage.flashes.push(...from.flashes.map((flash, index) => flash.fork(tellerOf(stage, index + 1))));
  stage.counters.push(...from.counters.map((counter, tool) => counter.fork(counterBoard(stage, tool))));
  stage.wearables.push(...from.wearables.map((wearable, worker) => wearable.fork(wearableBoard(stage, worker))));
}

/** The flash of a device that was never switched on, with a random stream of its own for what chance does to it. */
export function newFlashOf(stage: Stage, id: number): SimFlash {
  const chance = RandomStream.named(stage.day.seed, `flash ${nameOf(stage, id)}`);
  return new SimFlash(newFlash(chance), tellerOf(stage, id));
}

/** Erases take their time in the world; power that fails in an operation fails for the whole device. */
function tellerOf(stage: Stage, id: number): (told: FlashTold) => void {
  return (told) => {
    const by = nameOf(stage, id);
    switch (told.what) {
      case 'erasing':
        stage.tracer?.add(by, 'flash.erase', { page: told.page });
        stage.clock.arm(GEOMETRY.eraseMs, { of: 'erased', device: id, start: deviceState(stage, id).starts });
        break;
      case 'failed':
        powerFails(stage, id, told.in === 'erase' ? 'erase' : 'write');
        break;
      default:
    }
  };
}

function boardOf(stage: Stage, id: number): Board {
  const { world, tracer, workshop } = stage;
  const by = nameOf(stage, id);
  const random = stage.random.devices[id - 1]!;
  const state = deviceState(stage, id);
  const flash = stage.flashes[id - 1]!;
  return {
    flash,
    cipher: workshop.cipher,
    show: (display: Display) => {
      if (!state.on) return;
      world.displays[id - 1] = display;
      const { icons, screen, second, value } = display;
      tracer?.add(by, 'shown.display', { icons, screen, second, value });
    },
    send: (frame: Uint8Array, to: number, meaning: Message) => {
      if (state.on) send(stage, id, to, frame, meaning);
    },
    refused: (reason: Refusal) => {
      state.refused[reason] = (state.refused[reason] ?? 0) + 1;
      const { frame, from } = world.arriving;
      tracer?.add(by, 'air.refused', { frame, from, reason });
    },
    record: (bytes: Uint8Array) => {
      if (state.on) tracer?.add(by, 'shown.record', { bytes: hexText(bytes) });
    },
    random: () => random.bits(),
  };
}

function wearableBoard(stage: Stage, worker: number): WearableBoard {
  const { tracer } = stage;
  const id = wearableId(stage, worker);
  const by = stage.day.workers[worker]!.name;
  const state = deviceState(stage, id);
  return {
    ...boardOf(stage, id),
    inner: wearableInner(stage, worker),
    alert: (level: AlertLevel, again: number) => {
      if (state.on) tracer?.add(by, 'shown.alert', { again, level });
    },
    mark: (counter: number, mark: string, on: boolean) => {
      if (state.on) tracer?.add(by, 'shown.mark', { counter: nameOf(stage, counter), mark, on });
    },
  };
}

function counterBoard(stage: Stage, tool: number): CounterBoard {
  const id = counterId(tool);
  return { ...boardOf(stage, id), inner: counterInner(stage, tool) };
}

function counterInner(stage: Stage, tool: number): CounterInner {
  const { tracer } = stage;
  const by = stage.day.tools[tool]!.name;
  const state = deviceState(stage, counterId(tool));
  return {
    state: (region, name) => {
      if (state.on) tracer?.add(by, 'inner.state', { region, state: name });
    },
    recovered: ({ replayed, torn, retired }) => {
      if (state.on) tracer?.add(by, 'flash.recovered', { records: replayed, retired, torn });
    },
    kept: (session, { dose, triggerWindows, unratedWindows }) => {
      if (state.on) tracer?.add(by, 'inner.kept', { dose, session, triggerWindows, unratedWindows });
    },
    count: (session, { dose, shortBursts, triggerWindows, unratedWindows }) => {
      if (state.on) tracer?.add(by, 'inner.count', { dose, session, shortBursts, triggerWindows, unratedWindows });
    },
    magnitude: (tenths) => {
      if (state.on) tracer?.add(by, 'inner.magnitude', { tenths });
    },
    session: (session, what, wearable) => {
      if (state.on) tracer?.add(by, 'inner.session', { session, what, with: nameOf(stage, wearable) });
    },
    found: (session, what, wearable) => {
      if (state.on) tracer?.add(by, 'inner.found', { session, what, with: nameOf(stage, wearable) });
    },
  };
}

function wearableInner(stage: Stage, worker: number): WearableInner {
  const { tracer } = stage;
  const by = stage.day.workers[worker]!.name;
  const state = deviceState(stage, wearableId(stage, worker));
  return {
    state: (region, name) => {
      if (state.on) tracer?.add(by, 'inner.state', { region, state: name });
    },
    recovered: ({ replayed, torn, retired }) => {
      if (state.on) tracer?.add(by, 'flash.recovered', { records: replayed, retired, torn });
    },
    resumed: (shift, open, dose) => {
      if (state.on) tracer?.add(by, 'inner.resumed', { dose, open, shift });
    },
    paired: (counter, session, shift) => {
      if (state.on) tracer?.add(by, 'inner.paired', { counter: nameOf(stage, counter), session, shift });
    },
    ledger: ({ counter, dose, session, shift, triggerWindows, unratedWindows }, total) => {
      if (state.on)
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
      if (state.on) tracer?.add(by, 'inner.shift', { shift, what });
    },
    incomplete: (shift, counter, why) => {
      if (state.on) tracer?.add(by, 'inner.incomplete', { counter: nameOf(stage, counter), shift, why });
    },
  };
}
