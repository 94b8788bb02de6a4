// use: in the steps of a label another tool is in the place of the one that is there. Where the counter is set to what the
// old tool makes, it is set to what the new one makes. Faults stay with the tool that they befall.
import type { DayEvent, ToolSpec } from '../day.js';
import { labelled, nameOf } from '../fields/text.js';
import { change, mapLabel } from './change.js';

export const use = change(
  'use',
  { use: nameOf('tool'), in: labelled },
  ({ use: { value }, in: label }, draft, problems) => {
    const tools = new Map(draft.tools.map((tool) => [tool.name, tool]));
    const tool = tools.get(value);
    if (tool === undefined) return draft;
    let changes = 0;
    const changed = mapLabel(draft, label.value, (event) => {
      const other = withTool(event, tool, tools);
      if (other !== event) changes += 1;
      return other;
    });
    if (changes === 0) {
      const expected = 'one that has a run, work, set, pair, touch, press, turn or readout step with another tool';
      problems.at(label.node, 'unexpected', 'no step of this label can use another tool', expected);
    }
    return changed;
  },
);

function withTool(
  event: DayEvent,
  { name, magnitudeTenths }: ToolSpec,
  tools: ReadonlyMap<string, ToolSpec>,
): DayEvent {
  switch (event.do) {
    case 'run':
    case 'pair':
    case 'touch':
    case 'press':
    case 'turn':
      return event.tool === name ? event : { ...event, tool: name };
    case 'readout':
      return event.device === name || !tools.has(event.device) ? event : { ...event, device: name };
    case 'set': {
      if (event.tool === name) return event;
      const truly = tools.get(event.tool)?.magnitudeTenths === event.toTenths;
      return { ...event, tool: name, toTenths: truly ? magnitudeTenths : event.toTenths };
    }
    default:
      return event;
  }
}
