// What the day orders, done in the world. An event that cannot happen comes to nothing and is traced as such, so that any event
// of a day may be left out.
import type { DayEvent } from '../scenario/day.js';
import type { Stage } from './stage.js';
import { FAULTS } from './verbs/faults.js';
import { HANDS } from './verbs/hands.js';
import { PEOPLE } from './verbs/people.js';
import type { Reason, Verbs } from './verbs/verbs.js';

const VERBS: Verbs = { ...HANDS, ...PEOPLE, ...FAULTS };

export function happen(stage: Stage, event: DayEvent): void {
  const { world, tracer } = stage;
  world.cause = 0;
  const act = VERBS[event.do] as (stage: Stage, event: DayEvent) => Reason;
  const reason = act(stage, event);
  if (reason !== '') tracer?.add(actorOf(event), 'hand.nothing', { reason, verb: event.do });
}

function actorOf(event: DayEvent): string {
  switch (event.do) {
    case 'run':
      return event.by;
    case 'leave':
    case 'return':
      return event.who[0]!;
    case 'tap':
    case 'close':
      return event.worker;
    default:
      return 'device' in event ? event.device : event.tool;
  }
}
