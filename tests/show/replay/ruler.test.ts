import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { U_PER_POINT } from '../../../src/exposure/dose.js';
import { RULER_EXTRA, rulerText, scaleText, sharedLevels } from '../../../src/show/replay/ruler.js';
import { LEVELS } from '../../trace/made-day.js';

const points = (count: number) => count * U_PER_POINT;
const name = (level: string) => level;

describe('rulerText', () => {
  it('lays points out in proportion, with the EAV at a quarter and the ELV at the end', () => {
    expect(rulerText(0, 0, LEVELS, 20)).toBe('▁▁▁▁│┃▁▁▁▁▁▁▁▁▁▁▁▁▁▁┃ ');
    expect(rulerText(points(200), 0, LEVELS, 20)).toBe('▇▇▇▇│┃▇▇▇▇▁▁▁▁▁▁▁▁▁▁┃ ');
    expect(rulerText(points(40), points(20), LEVELS, 20)).toBe('▇▇▃▁│┃▁▁▁▁▁▁▁▁▁▁▁▁▁▁┃ ');
  });

  it('says that there is more where the limit value is passed', () => {
    expect(rulerText(points(400), 0, LEVELS, 8)).toMatch(/┃ $/);
    expect(rulerText(points(400) + 1, 0, LEVELS, 8)).toMatch(/┃»$/);
  });

  it('marks used and left by shape alone, so that no colour is needed', () => {
    const row = rulerText(points(200), points(60), LEVELS, 40);
    expect(new Set(row.replace(/[│┃ ]/g, ''))).toEqual(new Set(['▇', '▃', '▁']));
  });

  it('is as long as it should be and never shows more used than there is', () => {
    const dose = fc.integer({ min: 0, max: points(1000) });
    fc.assert(
      fc.property(dose, dose, fc.integer({ min: 4, max: 150 }), (used, onItsWay, cells) => {
        const row = rulerText(used, onItsWay, LEVELS, cells);
        expect([...row]).toHaveLength(cells + RULER_EXTRA);
        const tall = [...row].filter((cell) => cell === '▇').length;
        expect(tall).toBeLessThanOrEqual(Math.floor((used * cells) / points(400)));
        // Strokes take the place of at most three cells.
        expect(tall).toBeGreaterThanOrEqual(Math.min(cells, Math.floor((used * cells) / points(400))) - 3);
      }),
    );
  });
});

describe('scaleText', () => {
  it('stands its labels over the strokes', () => {
    const cells = 40;
    const scale = scaleText(LEVELS, name, cells);
    const row = rulerText(0, 0, LEVELS, cells);
    expect(scale.indexOf('action 100')).toBe(row.indexOf('┃'));
    expect(scale.indexOf('limit 400') + 'limit 400'.length - 1).toBe(row.lastIndexOf('┃'));
    expect(scale.startsWith('0')).toBe(true);
  });

  it('leaves out a label that would touch another, the site’s own first', () => {
    expect(scaleText(LEVELS, name, 28)).toBe('0      action 100   limit 400');
    expect(scaleText(LEVELS, name, 64)).toContain('notice 80');
  });

  it('labels only what all workers have alike', () => {
    const other = LEVELS.map((one) => (one.level === 'notice' ? { ...one, points: 60 } : one));
    expect(sharedLevels([LEVELS, other]).map(({ level }) => level)).toEqual(['action', 'limit']);
    expect(sharedLevels([])).toEqual([]);
  });
});
