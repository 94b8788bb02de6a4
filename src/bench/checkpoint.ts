// Once a minute a digest of everything that decides how the day goes on, so that two runs that differ are told apart at the
// first minute in which they do.
import { crc32 } from 'node:zlib';
import { positionsOf } from './randomness.js';
import type { Stage } from './stage.js';

export const CHECKPOINT_MS = 60_000;

export function checkpoint(stage: Stage): void {
  stage.tracer?.add('bench', 'inner.checkpoint', { digest: digest(stage) });
  stage.clock.arm(CHECKPOINT_MS, { of: 'checkpoint' });
}

function digest({ counters, wearables, clock, random }: Stage): string {
  let text = `${positionsOf(random)}${clock.pendingMs().join()}`;
  for (const device of counters) text += device.digest();
  for (const device of wearables) text += device.digest();
  return crc32(text).toString(16).padStart(8, '0');
}
