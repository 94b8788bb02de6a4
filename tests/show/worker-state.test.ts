import { describe, expect, it } from 'vitest';
import { stateWords } from '../../src/show/worker-state.js';
import type { WorkerMoment } from '../../src/trace/moment-worker.js';
import { LEVELS } from '../trace/made-day.js';

const WORKER: WorkerMoment = {
  name: 'Edda',
  levels: LEVELS,
  place: 0,
  shift: { number: 1, openedAtMs: 0, closedAtMs: null, long: false, incomplete: [] },
  dose: 0,
  ledger: [],
  keys: [],
  alerts: [],
  display: null,
  stale: [],
};
const showing = (screen: string) => ({ screen, value: -1, second: -1, icons: [] });
const ALERT = { level: 'action', atMs: 0, again: 0, acknowledgedAtMs: null };

describe('what is to be known of a worker', () => {
  it('is nothing where all is as it should be', () => {
    expect(stateWords(WORKER)).toEqual([]);
    expect(stateWords({ ...WORKER, display: showing('points') })).toEqual([]);
  });

  it('names the most pressing first', () => {
    const shift = { ...WORKER.shift!, closedAtMs: 5, long: true, incomplete: [{ counter: 'saw', why: 'power lost' }] };
    const all = { ...WORKER, alerts: [ALERT], place: 3, stale: ['saw', 'drill'], shift, display: showing('points') };
    expect(stateWords(all)).toEqual(['alert: EAV', 'away', 'stale: saw, drill', 'closed', 'incomplete', 'over 16 h']);
  });

  it.each([
    ['dark', 'no power'],
    ['asleep', 'asleep'],
  ])('of a display that is %s is first that it is %s; what is stale is known to nobody then', (screen, word) => {
    const lifeless = { ...WORKER, alerts: [ALERT], stale: ['saw'], display: showing(screen) };
    expect(stateWords(lifeless)).toEqual([word, 'alert: EAV']);
  });
});
