import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_DOSE, U_PER_POINT } from '../../src/exposure/dose.js';
import { hasPassed, REGIME_IDS, regimeById } from '../../src/exposure/regimes.js';

function levelsOf(id: string) {
  return regimeById(id)?.levels.map(({ level, points, compare }) => ({ level, points, compare }));
}

describe('regimes', () => {
  it('has the Directive: 2.5 and 5 m/s² A(8), both when exceeded', () => {
    // Directive 2002/44/EC, Article 3 (values), 5(2) and 5(3) (comparison, from memory).
    // Points at the EAV and the ELV: UK Health and Safety Executive, hand-arm vibration ready reckoner.
    expect(levelsOf('eu-2002-44')).toEqual([
      { level: 'action', points: 100, compare: 'exceeded' },
      { level: 'limit', points: 400, compare: 'exceeded' },
    ]);
  });

  it('has Great Britain: the action value when reached, the limit when exceeded', () => {
    // Control of Vibration at Work Regulations 2005, regulations 6(2) and 6(4): from memory.
    expect(levelsOf('gb-2005')).toEqual([
      { level: 'action', points: 100, compare: 'reached' },
      { level: 'limit', points: 400, compare: 'exceeded' },
    ]);
  });

  it('has Japan with its cap of two hours a day', () => {
    // Ministry of Health, Labour and Welfare, notice 0710-2 of 10 July 2009; the cap from secondary sources,
    // the action value from memory.
    expect(levelsOf('jp-0710-2')).toEqual([
      { level: 'action', points: 100, compare: 'exceeded' },
      { level: 'limit', points: 400, compare: 'exceeded' },
    ]);
    expect(regimeById('jp-0710-2')?.dailyCap?.ms).toBe(2 * 3_600_000);
    expect(regimeById('eu-2002-44')?.dailyCap).toBeNull();
  });

  it('lists ids that are all found, each with a source, and knows no others', () => {
    expect(REGIME_IDS).toEqual(['eu-2002-44', 'gb-2005', 'jp-0710-2']);
    for (const id of REGIME_IDS) {
      const regime = regimeById(id);
      expect(regime?.id).toBe(id);
      expect(regime?.source).not.toBe('');
    }
    for (const unknown of ['', 'EU-2002-44', '__proto__', 'constructor']) {
      expect(regimeById(unknown)).toBeUndefined();
    }
  });

  it('compares the exact dose, one unit either side of the level (ACC-3)', () => {
    const level = 100 * U_PER_POINT;
    expect(hasPassed(level - 1, 100, 'reached')).toBe(false);
    expect(hasPassed(level, 100, 'reached')).toBe(true);
    expect(hasPassed(level, 100, 'exceeded')).toBe(false);
    expect(hasPassed(level + 1, 100, 'exceeded')).toBe(true);
  });

  it('never takes back what has passed when dose grows, and exceeded means reached', () => {
    const dose = fc.integer({ min: 0, max: MAX_DOSE });
    fc.assert(
      fc.property(dose, dose, fc.integer({ min: 0, max: 25_000_000 }), (one, other, points) => {
        const [low, high] = one < other ? [one, other] : [other, one];
        for (const compare of ['reached', 'exceeded'] as const) {
          expect(hasPassed(low, points, compare) && !hasPassed(high, points, compare)).toBe(false);
        }
        expect(hasPassed(low, points, 'exceeded') && !hasPassed(low, points, 'reached')).toBe(false);
      }),
    );
  });

  it.each([-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY])('refuses a level of %s points', (wrong) => {
    expect(() => hasPassed(0, wrong, 'reached')).toThrow(RangeError);
  });

  it.each([-1, 0.5, Number.NaN, MAX_DOSE + 1])('refuses a dose of %s u', (wrong) => {
    expect(() => hasPassed(wrong, 100, 'reached')).toThrow(RangeError);
  });
});
