// What anything that shows a day is given: the trace, and the words around it that are never part of a trace.
import type { Note } from '../scenario/scenario.js';
import type { TraceEvent } from '../trace/kinds.js';

export interface ShownDay {
  readonly title: string;
  readonly events: readonly TraceEvent[];
  /** What the instructor asks and says, in any order. */
  readonly notes: readonly Note[];
}
