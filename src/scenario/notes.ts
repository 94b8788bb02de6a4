// What the instructor asks and says at moments of the day.
import { z } from 'zod';
import { mapsOf } from './collections.js';
import { readFields } from './fields/read-fields.js';
import { sentence } from './fields/text.js';
import { MAX_ITEMS } from './limits.js';
import { moment, type Timeline } from './moment.js';
import type { Note } from './scenario.js';
import { reportOutside, type Scope } from './scope.js';
import type { Node } from './yaml/node.js';

export const NOTE = z.strictObject({ at: moment, ask: sentence('a question').optional(), say: sentence('an answer') });

/** In the order of their times; a note at a step that a what-if drops is left out. */
export function readNotes(node: Node | undefined, timeline: Timeline, scope: Scope): readonly Note[] {
  const notes = mapsOf(node, 'a note', MAX_ITEMS, scope.problems).flatMap((map): Note[] => {
    const read = readFields(NOTE, map, { what: 'a note', span: map.span }, scope);
    if (read === null) return [];
    const atMs = timeline.msOf(read.at.value);
    if (atMs !== null) return [{ atMs, ask: read.ask?.value ?? null, say: read.say.value }];
    if (typeof read.at.value === 'object' && 'clock' in read.at.value) {
      reportOutside(scope.problems, read.at.node, timeline.frame);
    }
    return [];
  });
  return notes.sort((a, b) => a.atMs - b.atMs);
}
