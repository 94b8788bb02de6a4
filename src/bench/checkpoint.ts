// Once a minute a digest of what decides how the day goes on, so that two runs that differ are told apart at the first minute
// in which they do. Left out is what follows from the rest, or from where the random streams stand: what displays show, the
// bytes in a flash (its device's journal tells what it makes of them), what frames say that are on their way or were heard.
import { fold } from './fold.js';
import type { Stage } from './stage.js';
import type { World } from './world.js';

export const CHECKPOINT_MS = 60_000;

export function checkpoint(stage: Stage): void {
  stage.tracer?.add('bench', 'inner.checkpoint', { digest: digest(stage) });
  stage.clock.arm(CHECKPOINT_MS, { of: 'checkpoint' });
}

function digest({ world, counters, wearables, flashes, clock, random }: Stage): string {
  let sum = fold(clock.pendingMs(), 0);
  for (const { drawn } of random.devices) sum = fold(drawn, sum);
  for (const row of [...random.air, ...random.attacks]) for (const { drawn } of row) sum = fold(drawn, sum);
  for (const flash of flashes) sum = fold(flash.inside(), sum);
  for (const device of counters) sum = fold(device.inside(), sum);
  for (const device of wearables) sum = fold(device.inside(), sum);
  return (worldFold(world, sum) >>> 0).toString(16).padStart(8, '0');
}

/** How many events there have been, in the day or in the trace, is left out: the same world may come about by more or by fewer. */
function worldFold({ tools, workers, devices, air, busy, attacks, attackers }: World, seed: number): number {
  let sum = fold([tools, workers, air, busy, attacks], seed);
  for (const { on, starts, clock, clockFault, cell, cellPlan, plannedCutMs } of devices) {
    sum = fold([on, starts, clock, clockFault, cell, cellPlan, plannedCutMs], sum);
  }
  for (const row of attackers) for (const attacker of row) sum = fold(attacker?.frames ?? 0, sum);
  return sum;
}
