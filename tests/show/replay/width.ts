// Columns that a line takes in a terminal, escape sequences left out; for the characters that these tests use.

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const ESCAPES = /\x1b\[[0-9;?]*[A-Za-z]/g;
/** Han, kana and full-width forms fill two columns. */
const WIDE = /[\u{2e80}-\u{9fff}\u{ac00}-\u{d7ff}\u{ff00}-\u{ff60}]/u;

export function widthOf(line: string): number {
  return [...line.replace(ESCAPES, '')].reduce((sum, letter) => sum + (WIDE.test(letter) ? 2 : 1), 0);
}
