// One letter a worker, for the chart's lines and the narrow columns: a person's initial where that is free.

/** Letters in plain view of any font, one column wide. */
const PLAIN_LETTER = /^[\p{Lu}\p{Ll}\p{N}]$/u;
/** Beyond this lie scripts whose letters fill two columns. */
const FIRST_WIDE = 0x1100;

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
  return PLAIN_LETTER.test(letter) && (letter.codePointAt(0) ?? FIRST_WIDE) < FIRST_WIDE;
}
