// A problem as text, the way a compiler tells of it: the place, the line with a caret, what was expected.
import { printable } from './printable.js';
import type { Excerpt, Problem } from './problem.js';
import { quoted } from './yaml/node.js';

const MAX_PATH = 400;

/** Several lines without a line end behind the last one. */
export function renderProblem(problem: Problem): string {
  const { place, message, excerpt } = problem;
  const file = printable(place.file, MAX_PATH);
  const where = excerpt === null ? file : `${file}:${place.line}:${place.column}`;
  const lines = [`${where}  ${message}`];
  if (excerpt !== null) lines.push(...marked(place.line, excerpt));
  const advice = adviceOf(problem);
  if (advice !== '') lines.push(`  ${advice}`);
  return lines.join('\n');
}

function adviceOf({ expected, nearest }: Problem): string {
  const near = nearest === null ? '' : `the nearest is ${quoted(nearest)}`;
  return [expected, near].filter((part) => part !== '').join('; ');
}

function marked(line: number, { text, column, width }: Excerpt): readonly string[] {
  const number = `${line}`.padStart(5);
  const blank = ' '.repeat(number.length);
  return [`${number} | ${text}`, `${blank} | ${' '.repeat(column - 1)}${'^'.repeat(width)}`];
}
