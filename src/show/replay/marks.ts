// One letter a worker, for the chart's lines and the narrow columns: a person's initial where that is free.

import { isWide } from './text-columns.js';

/** Letters in plain view of any font, one column wide. */
const PLAIN_LETTER = /^[\p{Lu}\p{Ll}\p{N}]$/u;

/** A mark for each name, in order, no two the same: the first free letter of the name, else the first free digit or letter. */
export function marksFor(names: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const letters = [...name].map((letter) => letter.toUpperCase()).filter(isPlain);
    const mark = [...letters, ...'123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((one) => !taken.has(one)) ?? '?';
    taken.add(mark);
    return mark;
  });
}

function isPlain(letter: string): boolean {
  return PLAIN_LETTER.test(letter) && !isWide(letter);
}
