// Once a minute a digest of everything that decides how the day goes on, so that two runs that differ are told apart at the
// first minute in which they do.
import { fold } from './fold.js';
import type { Stage } from './stage.js';

export const CHECKPOINT_MS = 60_000;

export function checkpoint(stage: Stage): void {
  stage.tracer?.add('bench', 'inner.checkpoint', { digest: digest(stage) });
  stage.clock.arm(CHECKPOINT_MS, { of: 'checkpoint' });
}

function digest({ counters, wearables, flashes, clock, random }: Stage): string {
  let sum = fold(clock.pendingMs(), 0);
  for (const { drawn } of random.devices) sum = fold(drawn, sum);
  for (const row of [...random.air, ...random.attacks]) for (const { drawn } of row) sum = fold(drawn, sum);
  for (const { steps } of flashes) sum = fold(steps, sum);
  for (const device of counters) sum = fold(device.inside(), sum);
  for (const device of wearables) sum = fold(device.inside(), sum);
  return (sum >>> 0).toString(16).padStart(8, '0');
}
