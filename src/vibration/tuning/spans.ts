// What the counter's own detector makes of the levels of windows: the spans that it counts as running, and the bursts that were too
// short for it.
import { type Detection, type DetectorSettings, type DetectorState, detect } from '../../counter/detector.js';

/** Windows from..to-1 of a row of windows. */
export interface WindowSpan {
  readonly from: number;
  readonly to: number;
}

export interface Detected {
  /** In order, apart from each other; one that goes on at the end ends with the last window counted (TRG-2). */
  readonly spans: readonly WindowSpan[];
  /** TRG-3 */
  readonly shortBursts: number;
}

/** levels: mm/s², one a window. */
export function spansOf(settings: DetectorSettings, levels: ArrayLike<number>): Detected {
  const state: DetectorState = { running: false, pending: 0 };
  const found: Detection = { used: 0, counted: 0, decision: 'none' };
  const spans: WindowSpan[] = [];
  let from = -1;
  let to = -1;
  let shortBursts = 0;
  for (let window = 0; window < levels.length; window++) {
    detect(settings, state, levels[window]!, 1, found);
    if (found.decision === 'started') from = window + 1 - found.counted;
    if (found.counted > 0) to = window + 1;
    if (found.decision === 'short') shortBursts += 1;
    if (found.decision === 'stopped') spans.push({ from, to });
  }
  if (state.running) spans.push({ from, to });
  return { spans, shortBursts };
}
