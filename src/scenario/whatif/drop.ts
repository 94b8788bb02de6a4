// drop: the steps of a label do not happen.
import { labelled } from '../fields/text.js';
import { change } from './change.js';

export const drop = change('drop', { drop: labelled }, ({ drop: { value } }, draft) => ({
  ...draft,
  events: draft.events.filter(({ label }) => label !== value),
}));
