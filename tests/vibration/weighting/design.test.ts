// W_h: the analog definition against the published third-octave table, and the digital filter against the definition.
import { describe, expect, it, vi } from 'vitest';
import { THIRD_OCTAVES, weightedFromBands } from '../../../src/vibration/weighting/bands.js';
import { weightingAt } from '../../../src/vibration/weighting/definition.js';
import { designWeighting, digitalWeightingAt } from '../../../src/vibration/weighting/design.js';

const RATES = [3200, 4000, 5000, 6400, 8000, 10_000, 12_800, 16_000, 25_600, 48_000];
const WORST = 0.0015;

vi.setConfig({ testTimeout: 60_000 });

describe('the definition (ISO 8041-1:2017)', () => {
  it.each(THIRD_OCTAVES.map(({ nominalHz, centreHz, factor }) => [nominalHz, centreHz, factor] as const))(
    'gives the factor of the third-octave band of %d Hz (ISO 5349-1:2001, Table A.2), to half a unit of its last digit',
    (_, centreHz, factor) => {
      // Three digits are printed, and of 0.0799 to 0.00894 three that count.
      const unit = 10 ** (Math.floor(Math.log10(factor)) - 2);
      expect(Math.abs(weightingAt(centreHz) - factor)).toBeLessThanOrEqual(unit / 2);
    },
  );

  it('has 0.2020 at the reference frequency of 500 rad/s (ISO 8041-1:2017)', () => {
    expect(weightingAt(500 / (2 * Math.PI))).toBeCloseTo(0.202, 4);
  });

  it.each([
    [4, 0.3754],
    [5, 0.545],
    [1600, 0.00536],
  ])('falls off outside the table: %d Hz', (nominalHz, factor) => {
    const centreHz = 10 ** (Math.round(10 * Math.log10(nominalHz)) / 10);
    expect(Math.abs(weightingAt(centreHz) / factor - 1)).toBeLessThan(0.001);
  });
});

it('1 m/s² in each band makes 2.380 m/s² (derived from Table A.2)', () => {
  expect(weightedFromBands(THIRD_OCTAVES.map(() => 1))).toBeCloseTo(2.38, 3);
});

describe('the digital filter', () => {
  it.each(RATES)('follows the definition within 0.15 % at %d Hz', (rateHz) => {
    expect(worstOf(rateHz)).toBeLessThan(WORST);
  });

  it('does so at any rate from 3200 Hz up to 1 MHz', () => {
    for (let rateHz = 3200; rateHz <= 1_000_000; rateHz *= 1.04)
      expect(worstOf(rateHz), `${rateHz} Hz`).toBeLessThan(WORST);
  });

  it('below 3200 Hz it does so up to 0.4 of the rate', () => {
    for (let rateHz = 1600; rateHz < 3200; rateHz += 30) expect(worstOf(rateHz), `${rateHz} Hz`).toBeLessThan(WORST);
  });

  it.each([1599, 0, -1, Number.NaN])('is refused at %d Hz', (rateHz) => {
    expect(() => designWeighting(rateHz)).toThrow('W_h needs 1600 Hz or more');
  });

  it('is stable: the poles of each section lie inside the unit circle', () => {
    for (let rateHz = 1600; rateHz <= 1_000_000; rateHz *= 1.05) {
      const { highPass, lowPass, transition } = designWeighting(rateHz);
      for (const { a1, a2 } of [highPass, lowPass, transition]) {
        expect(Math.abs(a2)).toBeLessThan(1);
        expect(Math.abs(a1)).toBeLessThan(1 + a2);
      }
    }
  });
});

/** The largest deviation at a third-octave centre, as a part; only centres up to 0.4 of the rate. */
function worstOf(rateHz: number): number {
  const filter = designWeighting(rateHz);
  const centres = THIRD_OCTAVES.map(({ centreHz }) => centreHz).filter((hz) => hz <= 0.4 * rateHz);
  return Math.max(...centres.map((hz) => Math.abs(digitalWeightingAt(filter, hz) / weightingAt(hz) - 1)));
}
