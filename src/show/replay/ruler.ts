// The ruler of a worker: points used as tall blocks, points that a counter holds and the wearable does not have yet as
// low ones, points left as a line, levels as upright strokes. Positions are proportional to points.
import { U_PER_POINT } from '../../exposure/dose.js';
import type { LevelField } from '../../trace/kinds.js';
import { rulerEnd } from '../standing.js';

const USED = '▇';
const ON_ITS_WAY = '▃';
const LEFT = '▁';
const STROKES: Readonly<Record<string, string>> = { action: '┃', limit: '┃' };
const MINOR_STROKE = '│';
const BEYOND = '»';

/** Columns of a ruler beside its cells: the stroke at its end, and one for what lies beyond. */
export const RULER_EXTRA = 2;

/** A ruler of so many cells (at least 1) for a dose, and more on its way, in u. A cell is used once it is wholly used. */
export function rulerText(dose: number, onItsWay: number, levels: readonly LevelField[], cells: number): string {
  const end = rulerEnd(levels);
  const used = cellsOf(dose, end, cells);
  const reached = cellsOf(dose + onItsWay, end, cells);
  const row = Array.from<unknown, string>({ length: cells }, (_, cell) =>
    cell < used ? USED : cell < reached ? ON_ITS_WAY : LEFT,
  );
  for (const { level, points } of risingByWeight(levels)) {
    const cell = strokeCell(points, end, cells);
    if (cell <= cells) row[cell] = STROKES[level] ?? MINOR_STROKE;
  }
  row[cells] ??= MINOR_STROKE;
  row.push(dose > end * U_PER_POINT ? BEYOND : ' ');
  return row.join('');
}

/** The row above the rulers: which points lie where, for the levels that all workers share. */
export function scaleText(levels: readonly LevelField[], name: (level: string) => string, cells: number): string {
  const end = rulerEnd(levels);
  const row = Array.from<string>({ length: cells + RULER_EXTRA }).fill(' ');
  const put = (label: string, start: number): boolean => {
    const taken = row.slice(Math.max(0, start - 1), start + label.length + 1).some((one) => one !== ' ');
    if (start < 0 || start + label.length > row.length || taken) return false;
    for (const [index, letter] of [...label].entries()) row[start + index] = letter;
    return true;
  };
  put('0', 0);
  for (const { level, points } of risingByWeight(levels).reverse()) {
    const cell = strokeCell(points, end, cells);
    const label = `${name(level)} ${points}`;
    if (!put(label, cell)) put(label, cell + 1 - label.length);
  }
  return row.join('').trimEnd();
}

/** The levels that every worker has alike. */
export function sharedLevels(all: readonly (readonly LevelField[])[]): readonly LevelField[] {
  const [first = [], ...others] = all;
  return first.filter((one) => others.every((levels) => levels.some((it) => same(it, one))));
}

function same(a: LevelField, b: LevelField): boolean {
  return a.level === b.level && a.points === b.points;
}

function cellsOf(dose: number, end: number, cells: number): number {
  return Math.min(cells, Math.floor((dose * cells) / (end * U_PER_POINT)));
}

function strokeCell(points: number, end: number, cells: number): number {
  return Math.floor((points * cells) / end);
}

/** What weighs more comes later and so lies on top: the limit value over the action value over the site's own levels. */
function risingByWeight(levels: readonly LevelField[]): LevelField[] {
  const weight = ['notice', 'site', 'action', 'limit'];
  return [...levels].sort((a, b) => weight.indexOf(a.level) - weight.indexOf(b.level));
}
