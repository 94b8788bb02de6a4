// Which setting of the detector would have counted a recording best: every combination of levels and delays is run over it.
import { DETECTOR_DEFAULTS, type DetectorSettings } from '../../counter/detector.js';
import { type DetectorError, detectorError } from './detector-error.js';
import type { Mark } from './marks.js';
import { spansOf } from './spans.js';

/** What is combined, each in rising order: levels in mm/s², delays in windows. */
export interface Grid {
  readonly onLevelsMm: readonly number[];
  readonly offLevelsMm: readonly number[];
  readonly startAfter: readonly number[];
  readonly stopAfter: readonly number[];
}

/** Levels about a third of an octave apart, from the noise of a sensor to a strong tool; the defaults of TRG-1 are among them. */
export const GRID: Grid = {
  onLevelsMm: [400, 600, 800, 1000, 1300, 1600, 2000, 2500, 3200, 4000, 5000, 6300, 8000],
  offLevelsMm: [200, 300, 400, 500, 600, 800, 1000, 1300, 1600, 2000, 2500, 3200, 4000],
  startAfter: [1, 2, 3, 4],
  stopAfter: [2, 3, 4, 5, 6, 8],
};

/** Combinations times windows. */
const MOST_STEPS = 1_000_000_000;

export interface Tried {
  readonly settings: DetectorSettings;
  readonly error: DetectorError;
}

export interface Sweep {
  /** With the settings of TRG-1. */
  readonly byDefault: Tried;
  /** Least time wrongly counted or missed; of equals fewest wrong bursts, then the one nearest to the defaults, then the first. */
  readonly best: Tried;
  /** All, by on level, off level, start and stop delay, each rising; the off level is never above the on level. */
  readonly tried: readonly Tried[];
}

/** levels: as windowLevels gives them. Throws where the grid leaves nothing to try, or more than can be tried. */
export function sweep(levels: readonly number[], marks: readonly Mark[], grid: Grid = GRID): Sweep {
  const all = combinations(grid);
  if (all.length === 0) throw new RangeError('the grid has no combination with an off level below its on level');
  if (all.length * levels.length > MOST_STEPS) {
    throw new RangeError(`${all.length} settings over ${levels.length} windows are too many to try`);
  }
  const run = (settings: DetectorSettings) => tryOut(levels, marks, settings);
  const tried = all.map(run);
  return {
    byDefault: run(DETECTOR_DEFAULTS),
    best: tried.reduce((best, one) => (isBetter(one, best) ? one : best)),
    tried,
  };
}

/** Time that a setting counts wrongly, either way, ms. */
export function wrongMs({ falseMs, missedMs }: DetectorError): number {
  return falseMs + missedMs;
}

/** What one setting makes of a recording. */
export function tryOut(levels: readonly number[], marks: readonly Mark[], settings: DetectorSettings): Tried {
  return { settings, error: detectorError(spansOf(settings, levels), marks, levels.length) };
}

function combinations({ onLevelsMm, offLevelsMm, startAfter, stopAfter }: Grid): readonly DetectorSettings[] {
  return onLevelsMm.flatMap((onLevelMm) =>
    offLevelsMm
      .filter((offLevelMm) => offLevelMm <= onLevelMm)
      .flatMap((offLevelMm) =>
        startAfter.flatMap((start) =>
          stopAfter.map((stop) => ({ onLevelMm, offLevelMm, startAfter: start, stopAfter: stop })),
        ),
      ),
  );
}

function isBetter(one: Tried, other: Tried): boolean {
  const [a, b] = [rank(one), rank(other)];
  const at = a.findIndex((value, index) => value !== b[index]);
  return at !== -1 && a[at]! < b[at]!;
}

function rank({ settings, error }: Tried): readonly number[] {
  return [wrongMs(error), error.missedBursts + error.falseBursts, distance(settings)];
}

/** From the defaults, in windows of delay and tenths of m/s². */
function distance({ onLevelMm, offLevelMm, startAfter, stopAfter }: DetectorSettings): number {
  const levels =
    Math.abs(onLevelMm - DETECTOR_DEFAULTS.onLevelMm) + Math.abs(offLevelMm - DETECTOR_DEFAULTS.offLevelMm);
  const delays =
    Math.abs(startAfter - DETECTOR_DEFAULTS.startAfter) + Math.abs(stopAfter - DETECTOR_DEFAULTS.stopAfter);
  return levels / 100 + delays;
}
