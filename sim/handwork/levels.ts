// What a counter's sensor reads while a tool is at work: the r.m.s. acceleration of 100 ms windows, band-limited to
// 6.3..1250 Hz and unweighted, so well above the weighted magnitude. Invented, but of the right size for each character.

export interface Character {
  /** mm/s² while the tool runs, and while it is at rest in a hand or on the ground. */
  readonly runningMm: number;
  readonly restingMm: number;
}

export const CHARACTERS: Readonly<Record<'rotary' | 'percussive' | 'impact', Character>> = {
  rotary: { runningMm: 18_000, restingMm: 60 },
  percussive: { runningMm: 65_000, restingMm: 80 },
  impact: { runningMm: 110_000, restingMm: 80 },
};
