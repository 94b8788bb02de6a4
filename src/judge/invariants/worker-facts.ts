// What a trace has told so far of one worker's wearable.
import { U_PER_POINT } from '../../exposure/dose.js';
import type { EventOf, LevelField } from '../../trace/kinds.js';

export interface LevelFacts extends LevelField {
  /** The least dose that has passed it. */
  readonly leastDose: number;
}

/** With more sessions than that a wearable keeps of the oldest only what they add to their shifts (PAI-5). */
export const MOST_ENTRIES = 256;

export interface WorkerFacts {
  readonly name: string;
  readonly levels: readonly LevelFacts[];
  /** Number of the newest shift, 0 before the first, when it was closed (Infinity while it is open), and its dose. */
  shift: number;
  closedMs: number;
  total: number;
  /** By counter and session: for which shift it keeps the key. */
  readonly keys: Map<string, number>;
}

export function newWorker(event: EventOf<'hand.worker'>): WorkerFacts {
  const closedMs = Number.NEGATIVE_INFINITY;
  return { name: event.by, levels: levelFacts(event.levels), shift: 0, closedMs, total: 0, keys: new Map() };
}

export function keyName(counter: string, session: number): string {
  return `${counter} ${session}`;
}

/** Whether a shift is over: closed, or followed by another. */
export function isOver({ shift, closedMs }: WorkerFacts, of: number, atMs: number): boolean {
  return of < shift || (of === shift && closedMs <= atMs);
}

export function levelFacts(levels: readonly LevelField[]): readonly LevelFacts[] {
  return levels.map((level) => {
    const leastDose = level.points * U_PER_POINT + (level.compare === 'exceeded' ? 1 : 0);
    return { ...level, leastDose };
  });
}
