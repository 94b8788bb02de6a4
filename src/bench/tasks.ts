// Tasks that take a person several gestures and a look at a display: keying a magnitude in, and pairing. The person does what
// the display asks for and gives up where it does not answer, so that the same task serves any counter.
import { RING_PRESSES } from '../counter/panel.js';
import { shortestFor } from '../port/gesture.js';
import type { NothingReason } from './nothing.js';
import { counterId, inputToCounter, inputToWearable, type Stage, wearableId } from './stage.js';
import type { Task } from './task.js';

type SetTask = Task & { verb: 'set' };
type PairTask = Task & { verb: 'pair' };

/** Steps of one task before the person gives up; 50 m/s² are 500 detents from the least value. */
const MAX_STEPS = 700;
const HOLD_MS = shortestFor(RING_PRESSES, 'hold');
const LOOK_MS = 500;
/** Detents a person makes slowly enough to count 0.1 each, and quickly enough to count 0.5. */
const SLOW_DETENT_MS = 130;
const QUICK_DETENT_MS = 60;
/** Further than this from the goal a person turns quickly, down to half of it; then the ring rests so that detents are fine again. */
const FAR_TENTHS = 20;
const NEAR_TENTHS = 10;
const REST_MS = 1100;
/** Looks at the digits, a second apart, before the person gives a pairing up. */
const MAX_LOOKS = 20;

/** The ring has gone down; what the display shows after the hold decides how it goes on. */
export function beginSet(stage: Stage, tool: number, toTenths: number, cause: number): void {
  stage.world.busy[tool] = true;
  stage.clock.arm(HOLD_MS, { of: 'counter input', tool, input: { input: 'hold' }, cause });
  next(stage, { verb: 'set', tool, toTenths, step: 'opened', made: 0, quick: false, cause }, HOLD_MS + LOOK_MS);
}

/** Counter and wearable touch. */
export function beginPair(stage: Stage, tool: number, worker: number, cause: number): void {
  stage.world.busy[tool] = true;
  inputToCounter(stage, tool, { input: 'touch', peer: wearableId(stage, worker) }, cause);
  inputToWearable(stage, worker, { input: 'touch', peer: counterId(tool) }, cause);
  next(stage, { verb: 'pair', tool, worker, step: 'compare', made: 0, cause }, 3000);
}

export function goOn(stage: Stage, task: Task): void {
  if (task.made > MAX_STEPS) end(stage, task, 'given up');
  else if (task.verb === 'set') goOnSetting(stage, task);
  else goOnPairing(stage, task);
}

function goOnSetting(stage: Stage, task: SetTask): void {
  const { screen, value } = stage.world.displays[task.tool]!;
  const wanted = { opened: 'setting', turning: 'setting', reviewed: 'review', committed: 'ready' }[task.step];
  if (screen !== wanted) end(stage, task, task.step === 'opened' ? 'refused' : 'interrupted');
  else if (task.step === 'committed') end(stage, task, value === task.toTenths ? '' : 'interrupted');
  else if (task.step === 'reviewed') push(stage, task, 'committed');
  else if (value === task.toTenths) push(stage, task, 'reviewed');
  else turn(stage, task, value);
}

function push(stage: Stage, task: SetTask, step: 'reviewed' | 'committed'): void {
  inputToCounter(stage, task.tool, { input: 'push' }, task.cause);
  next(stage, { ...task, step, made: task.made + 1 }, LOOK_MS);
}

function turn(stage: Stage, task: SetTask, value: number): void {
  const far = value === -1 ? 0 : Math.abs(task.toTenths - value);
  const quick = far > FAR_TENTHS || (task.quick && far > NEAR_TENTHS);
  if (task.quick && !quick) {
    next(stage, { ...task, quick }, REST_MS);
    return;
  }
  inputToCounter(stage, task.tool, { input: 'turn', detents: value > task.toTenths ? -1 : 1 }, task.cause);
  next(stage, { ...task, step: 'turning', made: task.made + 1, quick }, quick ? QUICK_DETENT_MS : SLOW_DETENT_MS);
}

function goOnPairing(stage: Stage, task: PairTask): void {
  const counter = stage.world.displays[task.tool]!;
  const wearable = stage.world.displays[wearableId(stage, task.worker) - 1]!;
  const digits = [counter, wearable].filter((display) => display.screen === 'digits').length;
  if (task.step === 'compare') {
    if (digits < 2) look(stage, task, counter.screen.startsWith('refused') || wearable.screen.startsWith('refused'));
    else if (counter.value !== wearable.value) end(stage, task, 'digits differ');
    else {
      inputToCounter(stage, task.tool, { input: 'push' }, task.cause);
      next(stage, { ...task, step: 'tap' }, 1000);
    }
  } else if (task.step === 'tap') {
    inputToWearable(stage, task.worker, { input: 'tap' }, task.cause);
    next(stage, { ...task, step: 'done', made: 0 }, 1000);
  } else if (digits > 0) look(stage, task, false);
  else end(stage, task, '');
}

function look(stage: Stage, task: PairTask, refused: boolean): void {
  if (refused) end(stage, task, 'refused');
  else if (task.made >= MAX_LOOKS) end(stage, task, 'no answer');
  else next(stage, { ...task, made: task.made + 1 }, 1000);
}

function next(stage: Stage, task: Task, delayMs: number): void {
  stage.clock.arm(delayMs, { of: 'task', task });
}

/** reason '' is success. */
function end(stage: Stage, task: Task, reason: '' | NothingReason): void {
  const { world, tracer, day } = stage;
  const by = day.tools[task.tool]!.name;
  world.busy[task.tool] = false;
  world.cause = task.cause;
  if (reason === '') tracer?.add(by, 'hand.done', { verb: task.verb });
  else tracer?.add(by, 'hand.nothing', { reason, verb: task.verb });
}
