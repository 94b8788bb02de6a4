// Text of a file as a sentence or a line may repeat it: with a stand-in for whatever would move the cursor, colour the
// terminal or turn the reading direction, and cut where it is long.

const STAND_IN = '\ufffd';

/** One line of at most `most` UTF-16 units, and one more for "…" where it was cut. */
export function printable(text: string, most: number): string {
  const shown = text.length > most ? `${text.slice(0, most).replace(/[\ud800-\udbff]$/, '')}…` : text;
  return shown.replaceAll('\t', ' ').replace(/[\p{C}\p{Zl}\p{Zp}]/gu, STAND_IN);
}
