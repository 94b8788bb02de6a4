// How many columns a text takes at most.

/** Beyond this lie scripts whose letters fill two columns; what of them does not is only given more room than it needs. */
const FIRST_WIDE = 0x1100;

export function isWide(letter: string): boolean {
  return (letter.codePointAt(0) ?? FIRST_WIDE) >= FIRST_WIDE;
}

export function textColumns(text: string): number {
  return [...text].reduce((sum, letter) => sum + (isWide(letter) ? 2 : 1), 0);
}
