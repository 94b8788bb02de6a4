// How the points of each worker's shift went over the day: what the strip chart draws.
import type { TraceEvent } from '../../trace/kinds.js';
import { afterWorker, type WorkerMoment } from '../../trace/moment-worker.js';

export interface Course {
  readonly worker: string;
  /** Every change of the dose (u) of the shift that is shown, in order of time; it falls to 0 where a new shift opens. */
  readonly changes: readonly { readonly atMs: number; readonly dose: number }[];
}

/** What a start tells again may be less than what was shown before the power failed. */
const CHANGING: readonly string[] = ['inner.ledger', 'inner.shift', 'inner.resumed'];

/** One course a worker, in the order of the trace. */
export function coursesOf(events: readonly TraceEvent[]): readonly Course[] {
  const changes = new Map<string, { atMs: number; dose: number }[]>();
  let workers: readonly WorkerMoment[] = [];
  for (const event of events) {
    workers = afterWorker(workers, event);
    if (event.kind === 'hand.worker') changes.set(event.by, []);
    if (!CHANGING.includes(event.kind)) continue;
    const dose = workers.find((one) => one.name === event.by)?.dose ?? 0;
    changes.get(event.by)?.push({ atMs: event.at, dose });
  }
  return [...changes].map(([worker, list]) => ({ worker, changes: list }));
}

/** Dose in u at a time: what the last change up to and including it left; 0 before the first. */
export function doseAt(course: Course, atMs: number): number {
  let low = 0;
  let high = course.changes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((course.changes[middle]?.atMs ?? 0) <= atMs) low = middle + 1;
    else high = middle;
  }
  return course.changes[low - 1]?.dose ?? 0;
}
