// Signs in the values themselves that they are not of a tool that ran all the time, measured by a chain that was whole. The limits
// are ours: tools differ, but not so much.
import type { Finding } from '../recording/recording.js';
import { AXES, type Axis } from '../weighting/filter.js';
import type { RunningMean } from './running.js';

/** A second with less than this part of the total value: the tool stood still, or all but. */
const STANDING_PART = 0.3;
const MOST_STANDING_S = 0.5;
/** A second with so many times the total value: a blow, a loose cable, or work that was seldom. */
const MOST_TIMES = 1.5;
/** An axis with less than this part of the greatest axis tells of nothing but noise. */
const LEAST_PART = 0.01;
/** Less is an axis that is missing or stands still, which the recording tells of itself. */
const NOTHING_PART = 1e-9;

/** total: a_hv, m/s². */
export function evenness(running: RunningMean, total: number): readonly Finding[] {
  const found: Finding[] = [];
  const standingS = running.below(STANDING_PART * total);
  if (standingS > MOST_STANDING_S) {
    const says = `the tool stands still for ${standingS.toFixed(1)} s: a counter counts only while it runs, so cut pauses out`;
    found.push({ weight: 'doubts', what: 'pauses', says });
  }
  const greatest = running.greatest();
  if (greatest !== null && greatest > MOST_TIMES * total) {
    const says = `one second has ${(greatest / total).toFixed(1)} times the value of all: a blow, a loose cable, or a tool that seldom ran`;
    found.push({ weight: 'doubts', what: 'uneven', says });
  }
  return found;
}

export function weakAxes(axes: Readonly<Record<Axis, { readonly band: number }>>): readonly Finding[] {
  const most = Math.max(...AXES.map((axis) => axes[axis].band));
  const isWeak = ({ band }: { readonly band: number }) => band < LEAST_PART * most && band > NOTHING_PART * most;
  return AXES.filter((axis) => isWeak(axes[axis])).map((axis) => {
    const says = `axis ${axis} has ${axes[axis].band.toPrecision(2)} m/s² of ${most.toPrecision(3)} m/s²: look whether it was connected`;
    return { weight: 'doubts', what: 'axis-weak', says };
  });
}
