// Samples of an operation together, the demands on them, and the setting that follows.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/vibration/recording/recording.js';
import { operationValue, type SampleValue } from '../../../src/vibration/setting/operation.js';
import { recommend, type Sides } from '../../../src/vibration/setting/recommend.js';
import { type Sheet, sheetFindings } from '../../../src/vibration/setting/sheet.js';

const sample = (total: number, durationS: number, name = 'a'): SampleValue => ({ name, total, durationS });
const whats = (findings: readonly Finding[]) => findings.map(({ what }) => what);

const SHEET: Sheet = {
  operator: 'Edda',
  operation: 'cutting mortar',
  material: 'granite',
  accessory: 'flat chisel',
  mounting: 'hose clamp',
  place: 'front handle',
  calibration: { reference: 10, before: 10.1, after: 9.8 },
  chainUncertainty: 0.1,
};

describe('samples of one operation', () => {
  it('are averaged by energy: 5.2 (30 s), 6.1 (20 s), 4.8 (15 s) give 5.408 (ISO 5349-2 form, derived)', () => {
    const value = operationValue([sample(5.2, 30), sample(6.1, 20), sample(4.8, 15)]);
    expect(value.total).toBeCloseTo(5.408, 3);
    expect(value).toMatchObject({ durationS: 65, least: 4.8, greatest: 6.1, findings: [] });
  });

  it.each([
    ['few-samples', [sample(5, 40), sample(5.1, 40)]],
    ['short-total', [sample(5, 19), sample(5.1, 20), sample(5.2, 20)]],
    ['short-sample', [sample(5, 7.9, 'b.wav'), sample(5.1, 40), sample(5.2, 40)]],
    ['wide-spread', [sample(2, 40), sample(5, 40), sample(8, 40)]],
    ['same-recording', [sample(5, 40), sample(5.1, 30), sample(5, 40)]],
  ])('must be many, long and alike (ISO 5349-2:2001, from memory): %s', (what, samples) => {
    expect(whats(operationValue(samples).findings)).toEqual([what]);
  });

  it('may be short where they are many', () => {
    expect(operationValue(Array.from({ length: 10 }, (_, at) => sample(5 + at / 100, 6.5))).findings).toEqual([]);
  });

  it('average between the least and the greatest', () => {
    const samples = fc.array(
      fc.tuple(fc.double({ min: 0.1, max: 50, noNaN: true }), fc.integer({ min: 1, max: 600 })),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(samples, (drawn) => {
        const { total, least, greatest } = operationValue(drawn.map(([value, seconds]) => sample(value, seconds)));
        expect(total).toBeGreaterThanOrEqual(least * (1 - 1e-12));
        expect(total).toBeLessThanOrEqual(greatest * (1 + 1e-12));
      }),
    );
  });
});

describe('the sheet', () => {
  it('that says all is found right', () => expect(sheetFindings(SHEET)).toEqual([]));

  it('that is not there is a doubt', () => expect(whats(sheetFindings(null))).toEqual(['sheet-missing']));

  it.each([
    ['operation', 'doubts'],
    ['mounting', 'doubts'],
    ['calibration', 'doubts'],
    ['chainUncertainty', 'doubts'],
    ['operator', 'notes'],
    ['material', 'notes'],
    ['accessory', 'notes'],
    ['place', 'notes'],
  ] as const)('has a gap where it does not say of %s', (field, weight) => {
    expect(sheetFindings({ ...SHEET, [field]: null })).toMatchObject([{ weight, what: 'sheet-gap' }]);
  });

  it('must have the chain checked before and after, within 5 percent', () => {
    const moved = sheetFindings({ ...SHEET, calibration: { reference: 10, before: 10.4, after: 9.7 } });
    expect(moved.map(({ says }) => says)).toEqual([
      'the calibration check moves by -6.7 % from before to after the measurement',
    ]);
    const found = sheetFindings({ ...SHEET, calibration: { reference: 10, before: 10.6, after: null } });
    expect(whats(found)).toEqual(['calibration-off', 'sheet-gap']);
    expect(found[0]?.says).toBe('the calibration check before the measurement reads 10.6 m/s² of 10 m/s²: 6.0 % off');
  });
});

describe('the setting', () => {
  const side = (total: number, hand: Sides['hand'] = null): Sides => {
    const value = operationValue([sample(total, 30), sample(total, 30), sample(total, 30)]);
    return { hand, value, count: 3 };
  };

  it('is of the higher hand (Directive 2002/44/EC, Annex A.2(b)), rounded up', () => {
    expect(recommend([side(4.21, 'left'), side(6.02, 'right')], 0.1, [])).toMatchObject({
      magnitude: 6.1,
      hand: 'right',
    });
  });

  it('says how uncertain it is: the chain, and the mean of the samples', () => {
    const value = operationValue([sample(4.5, 30), sample(5, 30), sample(5.5, 30)]);
    const setting = recommend([{ hand: null, value, count: 3 }], 0.1, []);
    // Standard deviation 0.5 of a mean of 5, Student's 4.30 for three: 4.3 · 0.1 / √3 = 24.8 %, with 10 % of the chain 26.8 %.
    expect('uncertainty' in setting && setting.uncertainty / value.total).toBeCloseTo(0.2677, 3);
  });

  it('is withheld where anything is in doubt, and says why', () => {
    const doubt: Finding = { weight: 'doubts', what: 'dc-shift', says: '' };
    const note: Finding = { weight: 'notes', what: 'sheet-gap', says: '' };
    expect(recommend([side(5)], 0.1, [doubt, note, doubt])).toMatchObject({
      what: 'setting-withheld',
      says: 'no setting is recommended, because of: dc-shift',
    });
    expect(recommend([side(5)], 0.1, [note])).toMatchObject({ magnitude: 5 });
    expect(recommend([side(5)], null, [])).toMatchObject({ what: 'setting-withheld' });
  });

  it.each([0.2, 50.1])('is withheld where a counter cannot be set to it: %d', (total) => {
    expect(recommend([side(total)], 0.1, [])).toMatchObject({ what: 'setting-withheld' });
  });
});
