// The strip chart as a grid of characters: the points of every worker's shift from the start of the day up to now, as
// lines of dots that carry the worker's mark, over dashed lines for the levels. What is yet to come stays blank.
import { U_PER_POINT } from '../../exposure/dose.js';
import { type Course, doseAt } from './course.js';

export interface ChartCell {
  readonly text: string;
  /** Index of the worker whose line it is; null where it is a level's line or blank. */
  readonly series: number | null;
}

export interface ChartShape {
  readonly columns: number;
  readonly rows: number;
  readonly untilMs: number;
  /** Points at the upper edge. */
  readonly top: number;
}

const DOTS_ACROSS = 2;
const DOTS_DOWN = 4;
/** Bits of a Braille character by column and row of dots. */
const DOT_BITS = [
  [0x01, 0x02, 0x04, 0x40],
  [0x08, 0x10, 0x20, 0x80],
] as const;
const NO_DOTS = 0x2800;
const LEVEL_LINE = '┄';
/** A line carries its mark every so many columns, each line a little later than the one before. */
const MARK_EVERY = 18;
const MARK_SHIFT = 5;

/** Row of the grid in which so many points lie; -1 above the upper edge. */
export function rowOf(points: number, { rows, top }: Pick<ChartShape, 'rows' | 'top'>): number {
  return Math.floor((rows * DOTS_DOWN - 1 - dotOf(points, rows, top)) / DOTS_DOWN);
}

/** The grid, row by row from above. levelPoints are drawn as dashed lines where no worker's line runs. */
export function stripChart(
  courses: readonly Course[],
  marks: readonly string[],
  levelPoints: readonly number[],
  atMs: number,
  shape: ChartShape,
): readonly (readonly ChartCell[])[] {
  const { columns, rows, untilMs } = shape;
  const bits = courses.map(() => new Uint8Array(columns * rows));
  const across = columns * DOTS_ACROSS;
  const last = Math.min(across - 1, Math.floor((atMs * across) / untilMs));
  const heads = courses.map((course, series) => {
    if (!hasPoints(course, atMs)) return null;
    let previous = 0;
    for (let x = 0; x <= last; x++) {
      const timeMs = Math.min(atMs, ((x + 1) * untilMs) / across);
      const y = dotOf(doseAt(course, timeMs) / U_PER_POINT, rows, shape.top);
      for (const dot of span(previous, y)) setDot(bits[series] as Uint8Array, x, dot, shape);
      previous = y;
    }
    return previous;
  });
  const grid = drawn(bits, levelPoints, shape);
  ride(grid, bits, marks, shape);
  putHeads(grid, heads, marks, Math.floor(last / DOTS_ACROSS), shape);
  return grid;
}

/** Nobody who has had no points yet is drawn as standing at zero: all of it may be unrated (MAG-6). */
function hasPoints(course: Course, atMs: number): boolean {
  return course.changes.some((change) => change.dose > 0 && change.atMs <= atMs);
}

/** Dot counted from below, 0 at the bottom. */
function dotOf(points: number, rows: number, top: number): number {
  const highest = rows * DOTS_DOWN - 1;
  return Math.min(highest, Math.floor((points * highest) / top));
}

/** The dots between the last one and this one, so that a steep rise is an unbroken line; the last one itself left out. */
function span(from: number, to: number): readonly number[] {
  if (from === to) return [to];
  const step = Math.sign(to - from);
  return Array.from({ length: Math.abs(to - from) }, (_, index) => from + (index + 1) * step);
}

function setDot(bits: Uint8Array, x: number, dot: number, { columns, rows }: ChartShape): void {
  const fromTop = rows * DOTS_DOWN - 1 - dot;
  const index = Math.floor(fromTop / DOTS_DOWN) * columns + Math.floor(x / DOTS_ACROSS);
  const bit = DOT_BITS[x % DOTS_ACROSS]?.[fromTop % DOTS_DOWN] ?? 0;
  bits[index] = (bits[index] ?? 0) | bit;
}

function drawn(bits: readonly Uint8Array[], levelPoints: readonly number[], shape: ChartShape): ChartCell[][] {
  const levelRows = levelPoints.map((points) => rowOf(points, shape));
  return Array.from({ length: shape.rows }, (_, row) =>
    Array.from({ length: shape.columns }, (_, column) => {
      const index = row * shape.columns + column;
      const all = bits.reduce((sum, one) => sum | (one[index] ?? 0), 0);
      if (all === 0) return { text: levelRows.includes(row) ? LEVEL_LINE : ' ', series: null };
      return { text: String.fromCodePoint(NO_DOTS + all), series: bits.findIndex((one) => (one[index] ?? 0) > 0) };
    }),
  );
}

/** Puts marks onto the lines, where a line runs alone. */
function ride(grid: ChartCell[][], bits: readonly Uint8Array[], marks: readonly string[], shape: ChartShape): void {
  bits.forEach((own, series) => {
    for (let column = MARK_EVERY / 2 + series * MARK_SHIFT; column < shape.columns; column += MARK_EVERY) {
      // Of a steep line the uppermost cell carries the mark; the bottom row would hide that somebody has no points.
      const row = grid.findIndex((_, row) => (own[row * shape.columns + column] ?? 0) > 0);
      if (row < 0 || row === shape.rows - 1) continue;
      const shared = bits.some((other, index) => index !== series && (other[row * shape.columns + column] ?? 0) > 0);
      if (!shared) (grid[row] as ChartCell[])[column] = { text: marks[series] ?? '?', series };
    }
  });
}

/** Puts each mark to the right of its line's end, the next one a column further where lines end together. */
function putHeads(
  grid: ChartCell[][],
  heads: readonly (number | null)[],
  marks: readonly string[],
  column: number,
  shape: ChartShape,
): void {
  const taken = new Set<number>();
  heads.forEach((dot, series) => {
    if (dot === null) return;
    const row = Math.floor((shape.rows * DOTS_DOWN - 1 - dot) / DOTS_DOWN);
    let free = Math.min(column + 1, shape.columns - 1);
    while (taken.has(row * shape.columns + free) && free < shape.columns - 1) free++;
    while (taken.has(row * shape.columns + free) && free > 0) free--;
    taken.add(row * shape.columns + free);
    (grid[row] as ChartCell[])[free] = { text: marks[series] ?? '?', series };
  });
}
