// Tells a person what is wrong with the command line: which argument, where in it, and what was expected there.
import type { WrongArgument } from './operations.js';

/** Shown in place of what would move the cursor or colour the terminal. */
const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** How much of a text is shown around the place, so that the line fits a terminal. */
const SHOWN = 70;

export function mistakesText(mistakes: readonly WrongArgument[]): string {
  return mistakes.map(mistakeText).join('');
}

function mistakeText({ argument, text, at, expected }: WrongArgument): string {
  const from = Math.max(0, at - SHOWN);
  const shown = text.slice(from, from + SHOWN + 10).replace(UNPRINTABLE, '?');
  return [
    `counterproof exposure: operation ${argument} cannot be read at column ${at + 1}.`,
    `  ${shown}`,
    `  ${' '.repeat(at - from)}^ expected ${expected}`,
    '',
  ].join('\n');
}

export function unknownRegimeText(id: string, known: readonly string[]): string {
  return `counterproof exposure: there is no regime "${id.slice(0, SHOWN).replace(UNPRINTABLE, '?')}"; known are ${known.join(', ')}.\n`;
}
