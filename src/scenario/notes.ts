// What the instructor asks and says at moments of the day.
import { z } from 'zod';
import { mapsOf } from './collections.js';
import { readFields } from './fields/read-fields.js';
import { sentence } from './fields/text.js';
import { MAX_ITEMS } from './limits.js';
import { moment, type Timeline } from './moment.js';
import type { Problems } from './problems.js';
import type { Note } from './scenario.js';
import { reportOutside, type Scope } from './scope.js';
import type { Node } from './yaml/node.js';

const NOTE = z.strictObject({ at: moment, ask: sentence('a question').optional(), say: sentence('an answer') });

type Written = z.output<typeof NOTE>;

export function readNotes(node: Node | undefined, scope: Scope): readonly Written[] {
  return mapsOf(node, 'a note', MAX_ITEMS, scope.problems).flatMap((map) => {
    const note = readFields(NOTE, map, { what: 'a note', span: map.span }, scope);
    return note === null ? [] : [note];
  });
}

/** The notes of one day in the order of their times; one at a step that a what-if drops is left out. */
export function notesOf(written: readonly Written[], timeline: Timeline, problems: Problems): readonly Note[] {
  const notes = written.flatMap(({ at, ask, say }): Note[] => {
    const atMs = timeline.msOf(at.value);
    if (atMs !== null) return [{ atMs, ask: ask?.value ?? null, say: say.value }];
    if (at.value === 'end' || 'clock' in at.value) reportOutside(problems, at.node, timeline.frame);
    return [];
  });
  return notes.sort((a, b) => a.atMs - b.atMs);
}
