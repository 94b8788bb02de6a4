// What a verb of the day is on the bench: a function that does it, or says why it came to nothing.
import type { DayEvent, DayVerb } from '../../scenario/day.js';
import type { NothingReason } from '../nothing.js';
import type { Stage } from '../stage.js';

/** '' where it happened. */
export type Reason = '' | NothingReason;

export type Verbs<V extends DayVerb = DayVerb> = {
  readonly [verb in V]: (stage: Stage, event: DayEvent & { readonly do: verb }) => Reason;
};

/** Makes an event that was just traced the cause of what follows. */
export function cause(stage: Stage, n: number | undefined): number {
  stage.world.cause = n ?? 0;
  return stage.world.cause;
}
