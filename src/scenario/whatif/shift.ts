// shift: the steps of a label happen later, or earlier.
import { shiftDuration } from '../fields/duration.js';
import { labelled } from '../fields/text.js';
import { reportOutside } from '../scope.js';
import { change, mapLabel } from './change.js';

export const shift = change(
  'shift',
  { shift: labelled, by: shiftDuration },
  ({ shift: label, by }, draft, problems, frame) =>
    mapLabel(draft, label.value, (event) => {
      const atMs = event.atMs + by.value;
      if (atMs >= 0 && atMs < frame.untilMs) return { ...event, atMs };
      reportOutside(problems, by.node, frame, 'what is moved so far');
      return event;
    }),
);
