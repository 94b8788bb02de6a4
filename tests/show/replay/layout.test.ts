import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BIG_ROWS } from '../../../src/show/replay/big-digits.js';
import { LEAST_COLUMNS, LEAST_ROWS, layOut, type Wanted } from '../../../src/show/replay/layout.js';
import { toolColumns } from '../../../src/show/replay/tool-columns.js';

const names = (most: number) => fc.array(fc.string({ minLength: 1, maxLength: 30 }), { minLength: 1, maxLength: most });
const wanted: fc.Arbitrary<Wanted> = fc.record({
  columns: fc.integer({ min: LEAST_COLUMNS, max: 300 }),
  rows: fc.integer({ min: LEAST_ROWS, max: 90 }),
  workerNames: names(20),
  toolNames: names(20),
  noteRows: fc.integer({ min: 0, max: 4 }),
  chartAlone: fc.boolean(),
});

describe('layOut', () => {
  it('gives out exactly the rows of the frame, one fewer than the terminal has', () => {
    fc.assert(
      fc.property(wanted, (given) => {
        const layout = layOut(given);
        const { gaps } = layout;
        const listed = (shown: number, all: number) => (shown < all ? shown + 1 : shown);
        const workers = 1 + listed(layout.workers, given.workerNames.length) + (layout.captions ? layout.workers : 0);
        const tools = layout.tools === 0 ? 0 : 1 + listed(layout.tools, given.toolNames.length);
        const blank = [gaps.workers, gaps.tools, gaps.lower].filter(Boolean).length;
        const apart = layout.apart ? layout.workers - 1 : 0;
        const cautionAndHelp = 2;
        const used = BIG_ROWS + layout.noteRows + workers + tools + blank + apart + cautionAndHelp + layout.lowerRows;
        expect(layout.height).toBe(given.rows - 1);
        expect(used).toBeLessThanOrEqual(layout.height);
      }),
    );
  });

  it('never makes columns that are wider than the frame, or narrower than nothing', () => {
    fc.assert(
      fc.property(wanted, (given) => {
        const layout = layOut(given);
        expect(layout.chartColumns + layout.logColumns).toBeLessThanOrEqual(layout.width);
        expect(layout.rulerCells % 4).toBe(0);
        expect(layout.rulerCells).toBeGreaterThan(0);
        const six = Math.min(6, given.workerNames.length);
        const { name, state, owner, magnitude, left, share, heading } = toolColumns(layout, six);
        expect(name + state + owner + magnitude + left + share * six + heading).toBeLessThanOrEqual(layout.width);
        expect(Math.min(state, owner, share + 1, heading + 1)).toBeGreaterThan(0);
        // Six shares fit wherever the replay is meant to be good.
        if (given.columns >= 80) expect(share).toBeGreaterThan(0);
      }),
    );
  });

  it('gives the rulers captions and the chart six rows in 80 × 24, for three workers and four tools', () => {
    const day = { workerNames: ['Edda', 'Bram', 'Ilse'], toolNames: ['breaker', 'grinder', 'drill', 'saw'] };
    const layout = layOut({ columns: 80, rows: 24, ...day, noteRows: 0, chartAlone: false });
    expect(layout).toMatchObject({ captions: true, workers: 3, tools: 4, lowerRows: 6, rulerCells: 60 });
    expect(layOut({ columns: 160, rows: 50, ...day, noteRows: 2, chartAlone: false })).toMatchObject({
      captions: true,
      apart: true,
      gaps: { workers: true, tools: true, lower: true },
      lowerRows: 25,
    });
  });
});
