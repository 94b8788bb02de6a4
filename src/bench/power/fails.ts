// Power fails: whatever a device was about, it stops in the middle of it. Its flash stays as it is, all else is lost.
import { deviceState, isCounter, nameOf, type Stage } from '../stage.js';
import { DARK } from '../world.js';

export type CutDuring = 'now' | 'write' | 'erase' | 'exchange' | 'brown-out';

/** Power of a device is back after this, unless whoever cut it says otherwise. */
export const RESTART_MS = 1000;

/**
 * Takes the power from a device; it comes back after forMs, or after as long as the cut that was planned says. Where it had
 * none (the cell of a device that has stopped is exchanged), only when it comes back is another time.
 */
export function powerFails(stage: Stage, id: number, during: CutDuring, forMs?: number): void {
  const { world, tracer, clock } = stage;
  const state = deviceState(stage, id);
  const by = nameOf(stage, id);
  const flash = stage.flashes[id - 1]!;
  const backMs = forMs ?? state.plannedCutMs ?? RESTART_MS;
  if (state.on && isCounter(stage, id)) tellCount(stage, id);
  state.on = false;
  state.starts += 1;
  state.plannedCutMs = null;
  if (flash.powered) flash.failNow();
  const n = tracer?.add(by, 'fault.cut', { during }) ?? 0;
  world.wakesMs[id - 1] = Infinity;
  world.displays[id - 1] = DARK;
  world.causes[id - 1] = n;
  const { cause } = world;
  world.cause = n;
  const { icons, screen, second, value } = DARK;
  tracer?.add(by, 'shown.display', { icons, screen, second, value });
  world.cause = cause;
  clock.arm(backMs, { of: 'power', device: id, start: state.starts });
}

/** What a counter has counted by then: what it has lost is known by it. */
function tellCount(stage: Stage, id: number): void {
  const { dose, session, shortBursts, triggerWindows, unratedWindows } = stage.counters[id - 1]!.observe();
  stage.tracer?.add(nameOf(stage, id), 'inner.count', { dose, session, shortBursts, triggerWindows, unratedWindows });
}
