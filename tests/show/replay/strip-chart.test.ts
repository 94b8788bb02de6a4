import { describe, expect, it } from 'vitest';
import { U_PER_POINT } from '../../../src/exposure/dose.js';
import { hourLine } from '../../../src/show/replay/hour-line.js';
import { rowOf, stripChart } from '../../../src/show/replay/strip-chart.js';
import { HOUR } from '../../trace/made-day.js';

const shape = { columns: 40, rows: 10, untilMs: 8 * HOUR, top: 400 };
const course = (worker: string, ...changes: (readonly [number, number])[]) => ({
  worker,
  changes: changes.map(([hours, points]) => ({ atMs: hours * HOUR, dose: points * U_PER_POINT })),
});
const rows = (grid: ReturnType<typeof stripChart>) => grid.map((cells) => cells.map(({ text }) => text).join(''));

describe('stripChart', () => {
  it('draws level lines at their points', () => {
    const grid = rows(stripChart([], [], [100, 400], 0, shape));
    expect(grid).toHaveLength(10);
    expect(grid.flatMap((row, index) => (row === '┄'.repeat(40) ? [index] : []))).toEqual([
      rowOf(400, shape),
      rowOf(100, shape),
    ]);
    expect(rowOf(400, shape)).toBe(0);
    expect(rowOf(100, shape)).toBe(7);
    expect(rowOf(0, shape)).toBe(9);
  });

  it('draws each line up to now, headed by its mark, and nothing of what is to come', () => {
    const grid = stripChart([course('Edda', [1, 100], [6, 400])], ['E'], [], 4 * HOUR, shape);
    const texts = rows(grid);
    for (const row of texts) expect(row.slice(22).trim()).toBe('');
    expect(texts[rowOf(100, shape)]?.[21]).toBe('E');
    expect(texts.join('')).toMatch(/[⠁-⣿]/);
    expect(rows(stripChart([course('Edda', [1, 100], [6, 400])], ['E'], [], 8 * HOUR, shape))[0]).toContain('E');
  });

  it('keeps lines apart by their marks, also where they end together', () => {
    const courses = [course('Edda', [1, 100]), course('Bram', [1, 100]), course('Ilse', [2, 300])];
    const grid = stripChart(courses, ['E', 'B', 'I'], [], 4 * HOUR, shape);
    expect(rows(grid)[rowOf(100, shape)]).toContain('EB');
    expect(rows(grid)[rowOf(300, shape)]).toContain('I');
    const atTheEdge = rows(stripChart(courses, ['E', 'B', 'I'], [], 8 * HOUR, shape));
    expect(atTheEdge[rowOf(100, shape)]).toMatch(/E/);
    expect(atTheEdge[rowOf(100, shape)]).toMatch(/B/);
  });

  it('falls where a new shift opens', () => {
    const grid = stripChart([course('Edda', [1, 300], [4, 0])], ['E'], [], 8 * HOUR, shape);
    expect(rows(grid)[9]?.slice(22)).toMatch(/[⠁-⣿]/);
    expect(rows(grid)[rowOf(300, shape)]?.slice(24)).not.toMatch(/[⠁-⣿]/);
  });

  it('draws nobody at zero who has no points', () => {
    expect(
      rows(stripChart([course('Edda')], ['E'], [], 8 * HOUR, shape))
        .join('')
        .trim(),
    ).toBe('');
  });

  it('holds points above its upper edge at the edge', () => {
    expect(rows(stripChart([course('Edda', [1, 900])], ['E'], [], 4 * HOUR, shape))[0]).toContain('E');
  });
});

describe('hourLine', () => {
  it('begins each label in the column of its hour', () => {
    expect(hourLine(7 * HOUR, 8 * HOUR, 80)).toMatch(/^07:00 {5}08:00 {5}09:00/);
    expect(hourLine(6.5 * HOUR, 8 * HOUR, 32)).toMatch(/^ {2}07 {2}08 {2}09/);
  });

  it('leaves hours out where they would touch, and goes on past midnight', () => {
    expect(hourLine(0, 24 * HOUR, 48)).toMatch(/^00 {2}02 {2}04/);
    expect(hourLine(22 * HOUR, 4 * HOUR, 40)).toMatch(/^22:00 {5}23:00 {5}00:00 {5}01:00/);
  });
});
