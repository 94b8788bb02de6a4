// magnitude: the tool makes another magnitude. Wherever its counter was given the old one, before the day or by a set,
// it is given the new one; a counter that was given something else stays wrong, because that is what the day is about.
import { magnitude } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { change } from './change.js';

export const anotherMagnitude = change(
  'magnitude',
  { magnitude: nameOf('tool'), to: magnitude },
  ({ magnitude: { value: name }, to: { value: tenths } }, draft) => {
    const old = draft.tools.find((tool) => tool.name === name)?.magnitudeTenths;
    const tools = draft.tools.map((tool) => {
      if (tool.name !== name) return tool;
      return { ...tool, magnitudeTenths: tenths, keyedTenths: tool.keyedTenths === old ? tenths : tool.keyedTenths };
    });
    const events = draft.events.map((each) => {
      const { event } = each;
      const given = event.do === 'set' && event.tool === name && event.toTenths === old;
      return given ? { ...each, event: { ...event, toTenths: tenths } } : each;
    });
    return { tools, events };
  },
);
