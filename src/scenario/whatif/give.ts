// give: in the steps of a label another worker stands in the place of the one who stands there. Dose is charged to whom
// the counter is paired with, so a label for a rota holds the pairing and the work.
import type { DayEvent } from '../day.js';
import { labelled, nameOf } from '../fields/text.js';
import { change, mapLabel } from './change.js';

export const give = change('give', { give: labelled, to: nameOf('worker') }, ({ give: label, to }, draft, problems) => {
  const tools = new Set(draft.tools.map(({ name }) => name));
  let given = 0;
  const changed = mapLabel(draft, label.value, (event) => {
    const other = withWorker(event, to.value, tools);
    if (other !== event) given += 1;
    return other;
  });
  if (given === 0) {
    const expected = 'one that has a run, work, pair, touch, tap, close or readout step of somebody else';
    problems.at(label.node, 'unexpected', 'no step of this label can be given away', expected);
  }
  return changed;
});

function withWorker(event: DayEvent, worker: string, tools: ReadonlySet<string>): DayEvent {
  switch (event.do) {
    case 'run':
      return event.by === worker ? event : { ...event, by: worker };
    case 'pair':
    case 'touch':
      return event.with === worker ? event : { ...event, with: worker };
    case 'tap':
    case 'close':
      return event.worker === worker ? event : { ...event, worker };
    case 'readout':
      return event.device === worker || tools.has(event.device) ? event : { ...event, device: worker };
    default:
      return event;
  }
}
