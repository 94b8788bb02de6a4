// Words that the invariants share.
import type { SessionFacts, Sums } from './session-facts.js';

export function sessionText({ counter, session }: Pick<SessionFacts, 'counter' | 'session'>): string {
  return session === 0 ? `the unclaimed time of ${counter}` : `session ${session} of ${counter}`;
}

/** "2880000 u in 2 windows, 0 of them unrated" */
export function sumsText({ dose, triggerWindows, unratedWindows }: Readonly<Sums>): string {
  return `${dose} u in ${triggerWindows} windows, ${unratedWindows} of them unrated`;
}

/** Whether one of the sums is smaller than its counterpart. */
export function isLess(sums: Readonly<Sums>, than: Readonly<Sums>): boolean {
  return (
    sums.dose < than.dose || sums.triggerWindows < than.triggerWindows || sums.unratedWindows < than.unratedWindows
  );
}
