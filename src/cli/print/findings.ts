// What was found of a recording, a line each, and an output of paragraphs.
import type { Finding } from '../../vibration/recording/recording.js';

/** How a finding is marked, by its weight. */
const MARK = { refuses: 'no value', doubts: 'in doubt', notes: 'note' } as const;

/** where: the file, the hand or the sheet that it is of. */
export function findingLine({ weight, what, says }: Finding, where: string): string {
  return `${MARK[weight]}  ${where}: ${says} [${what}]`;
}

/** Paragraphs of lines with a blank line between them; those without a line are left out. */
export function paragraphs(parts: readonly (readonly string[])[]): string {
  return parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.map((line) => `${line}\n`).join(''))
    .join('\n');
}
