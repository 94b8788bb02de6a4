// The first events of a trace: the day, its tools and its workers, so that a trace can be read by itself.
import { inRisingOrder } from '../wearable/levels.js';
import { levelsFor } from './levels.js';
import type { Stage } from './stage.js';

export function opening({ day, tracer }: Stage): void {
  if (tracer === null) return;
  const { fromMs, regime, seed, untilMs } = day;
  tracer.add('bench', 'hand.day', { fromMs, regime, seed, untilMs });
  for (const { name, hand, samples, keyedTenths, magnitudeTenths } of day.tools) {
    tracer.add(name, 'hand.tool', { character: samples ?? hand, keyedTenths: keyedTenths ?? 0, magnitudeTenths });
  }
  for (const worker of day.workers) {
    const levels = inRisingOrder(levelsFor(day.regime, worker)).map(({ compare, level, points }) => ({
      compare,
      level,
      points,
    }));
    tracer.add(worker.name, 'hand.worker', { levels });
  }
}
