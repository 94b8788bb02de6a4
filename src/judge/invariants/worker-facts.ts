// What a trace has told so far of one worker's wearable.
import { U_PER_POINT } from '../../exposure/dose.js';
import type { EventOf, LevelField } from '../../trace/kinds.js';

export interface LevelFacts extends LevelField {
  /** The least dose that has passed it. */
  readonly leastDose: number;
}

export interface WorkerFacts {
  readonly name: string;
  readonly levels: readonly LevelFacts[];
  /** Number of the newest shift, 0 before the first, when it was closed (Infinity while it is open), and its dose. */
  shift: number;
  closedMs: number;
  total: number;
}

export function newWorker(event: EventOf<'hand.worker'>): WorkerFacts {
  const closedMs = Number.NEGATIVE_INFINITY;
  return { name: event.by, levels: levelFacts(event.levels), shift: 0, closedMs, total: 0 };
}

export function levelFacts(levels: readonly LevelField[]): readonly LevelFacts[] {
  return levels.map((level) => {
    const leastDose = level.points * U_PER_POINT + (level.compare === 'exceeded' ? 1 : 0);
    return { ...level, leastDose };
  });
}
