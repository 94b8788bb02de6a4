// Weighting factors of the third-octave bands, as published: a second way to a weighted value, beside the filter.
// Source: ISO 5349-1:2001, Table A.2 (also JIS B 7761-3). Exact band centres are 10^(n/10) Hz.

export interface ThirdOctave {
  /** Name of the band: its nominal centre, Hz. */
  readonly nominalHz: number;
  readonly centreHz: number;
  /** W_h in the band. */
  readonly factor: number;
}

const TABLE = [
  [6.3, 0.727],
  [8, 0.873],
  [10, 0.951],
  [12.5, 0.958],
  [16, 0.896],
  [20, 0.782],
  [25, 0.647],
  [31.5, 0.519],
  [40, 0.411],
  [50, 0.324],
  [63, 0.256],
  [80, 0.202],
  [100, 0.16],
  [125, 0.127],
  [160, 0.101],
  [200, 0.0799],
  [250, 0.0634],
  [315, 0.0503],
  [400, 0.0398],
  [500, 0.0314],
  [630, 0.0245],
  [800, 0.0186],
  [1000, 0.0135],
  [1250, 0.00894],
] as const;

/** 10^(8/10) Hz is the centre of the first. */
const FIRST_TENTH = 8;

export const THIRD_OCTAVES: readonly ThirdOctave[] = TABLE.map(([nominalHz, factor], at) => {
  return { nominalHz, centreHz: 10 ** ((FIRST_TENTH + at) / 10), factor };
});

/** a_hw from the r.m.s. values of the bands, in their order, in m/s² (ISO 5349-1:2001, A.2). */
export function weightedFromBands(rms: readonly number[]): number {
  if (rms.length !== THIRD_OCTAVES.length) throw new RangeError(`${THIRD_OCTAVES.length} bands, not ${rms.length}`);
  return Math.sqrt(THIRD_OCTAVES.reduce((sum, { factor }, at) => sum + (factor * rms[at]!) ** 2, 0));
}
