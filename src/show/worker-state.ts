// What a class must know of a worker beside the points, in a word or two each, the most pressing first.
import type { WorkerMoment } from '../trace/moment-worker.js';
import { lifelessWord } from './life.js';
import { unratedMs } from './standing.js';
import { levelWord, minutesText } from './words.js';

/** Words such as "no power", "alert: EAV", "away", "stale: breaker", "closed"; none where all is as it should be. */
export function stateWords(worker: WorkerMoment): readonly string[] {
  const { alerts, place, shift, stale } = worker;
  const words: string[] = [];
  const lifeless = lifelessWord(worker);
  if (lifeless !== '') words.push(lifeless);
  const pending = alerts.findLast((alert) => alert.acknowledgedAtMs === null);
  if (pending !== undefined) words.push(`alert: ${levelWord(pending.level)}`);
  if (place !== 0) words.push('away');
  if (stale.length > 0 && lifeless === '') words.push(`stale: ${stale.join(', ')}`);
  if (unratedMs(worker) > 0) words.push(`unrated: ${minutesText(unratedMs(worker))}`);
  if (shift === null) words.push('no shift');
  if (shift !== null && shift.closedAtMs !== null) words.push('closed');
  if (shift !== null && shift.incomplete.length > 0) words.push('incomplete');
  if (shift?.long === true) words.push('over 16 h');
  return words;
}
