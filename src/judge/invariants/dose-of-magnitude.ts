// Guards ACC-1, MAG-5 and MAG-6: dose grows by a² · Δt exactly, with the magnitude in force when each window began; without a
// magnitude the windows are unrated and make no dose.
import { MAX_DOSE } from '../../exposure/dose.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts, Sums } from './session-facts.js';
import { WINDOW_MS } from './stretch.js';
import { sessionText } from './text.js';

/** A magnitude is set while the tool is at rest, so at most the windows of a start not yet confirmed (TRG-1) precede it. */
const WINDOWS_BEFORE_CHANGE = 2;

export const doseOfMagnitude: Invariant = {
  name: 'dose is the magnitude squared times the time, exactly',
  guards: ['ACC-1', 'MAG-5', 'MAG-6'],
  watch: (facts) => ({
    on: {
      'inner.count': (event) => wrongDose(facts, event),
      'air.tally': (event) => wrongDose(facts, event),
    },
  }),
};

function wrongDose(facts: Facts, event: EventOf<'inner.count'> | EventOf<'air.tally'>): string | undefined {
  const counter = facts.counter(event.by);
  const session = facts.session(event.by, event.session);
  if (session === undefined || event.dose === MAX_DOSE) return undefined;
  const before = latest(session);
  const windows = event.triggerWindows - before.triggerWindows;
  // An older state that is told again was judged when it was told first.
  if (windows < 0) return undefined;
  const dose = event.dose - before.dose;
  const unrated = event.unratedWindows - before.unratedWindows;
  if (fits(counter.tenths, windows, 0, 0, dose, unrated)) return undefined;
  if (event.at - counter.changedMs <= (WINDOWS_BEFORE_CHANGE + 1) * WINDOW_MS) {
    for (let old = 1; old <= Math.min(windows, WINDOWS_BEFORE_CHANGE); old++) {
      if (fits(counter.tenths, windows - old, counter.previousTenths, old, dose, unrated)) return undefined;
    }
  }
  const grown = `grew by ${dose} u in ${windows} windows, ${unrated} of them unrated`;
  return `${sessionText(session)} ${grown}, at a magnitude of ${counter.tenths} tenths of m/s²`;
}

/** Whether dose and unrated windows are what so many windows at one magnitude and so many at another make. */
function fits(
  tenths: number,
  windows: number,
  old: number,
  oldWindows: number,
  dose: number,
  unrated: number,
): boolean {
  const made = (tenths * tenths * windows + old * old * oldWindows) * WINDOW_MS;
  const withoutMagnitude = (tenths === 0 ? windows : 0) + (old === 0 ? oldWindows : 0);
  return dose === made && unrated === withoutMagnitude;
}

/** What was last known of a session: its tallies and its own count are never behind the counter at once. */
function latest({ told, counted }: SessionFacts): Sums {
  return told.triggerWindows > counted.triggerWindows ? told : counted;
}
