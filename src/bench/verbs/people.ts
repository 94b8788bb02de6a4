// People and tools leave the site together, and come back; what is at one place is in reach of each other.
import type { Stage } from '../stage.js';
import { letGo } from '../tools.js';
import { SITE } from '../world.js';
import { moveTo, placeOf } from './names.js';
import { cause, type Reason, type Verbs } from './verbs.js';

export const PEOPLE: Verbs<'leave' | 'return'> = {
  leave: (stage, event) => {
    const leaving = event.who.filter((name) => placeOf(stage, name) === SITE);
    if (leaving.length === 0) return 'away already';
    const { world, clock } = stage;
    world.lastPlace += 1;
    cause(stage, stage.tracer?.add(event.who[0]!, 'hand.leave', { who: leaving }));
    for (const name of leaving) moveTo(stage, name, world.lastPlace);
    letGoOfAll(stage);
    if (event.forMs !== null) clock.arm(event.forMs, { of: 'return', place: world.lastPlace });
    return '';
  },

  return: (stage, event) => {
    const away = event.who.filter((name) => placeOf(stage, name) !== SITE);
    return away.length === 0 ? 'here already' : comeBack(stage, away);
  },
};

/** Those who are still where they went together come back. */
export function returnFrom(stage: Stage, place: number): void {
  const { day } = stage;
  const names = [...day.workers, ...day.tools].map(({ name }) => name);
  const away = names.filter((name) => placeOf(stage, name) === place);
  if (away.length > 0) comeBack(stage, away);
}

function comeBack(stage: Stage, names: readonly string[]): Reason {
  stage.tracer?.add(names[0]!, 'hand.return', { who: names });
  for (const name of names) moveTo(stage, name, SITE);
  letGoOfAll(stage);
  return '';
}

/** Nobody holds a tool that is somewhere else: it is let go, and stops. */
function letGoOfAll(stage: Stage): void {
  const { world } = stage;
  for (const [tool, { run, place }] of world.tools.entries()) {
    if (run?.held && world.workers[run.worker]!.place !== place) letGo(stage, tool, run);
  }
}
