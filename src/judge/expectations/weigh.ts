// Weighs one expectation against a trace.
import type { Expectation } from '../../scenario/expectation.js';
import { eventsAround } from '../around.js';
import type { Verdict } from '../verdict.js';
import { weighWithin } from './deadlines.js';
import type { Finding } from './finding.js';
import { weighAlways, weighAt, weighNever, weighRise } from './moments.js';
import type { TraceIndex } from './trace-index.js';

/** The verdict on an expectation; one that nothing in the trace could decide does not hold, and says so. */
export function weigh(index: TraceIndex, expectation: Expectation): Verdict {
  const { held, expected, seen, atMs, n, devices } = findingOf(index, expectation);
  const deciding = index.events[n - 1];
  const around = eventsAround(index.events, atMs, devices, deciding);
  const sinceMs = Math.min(atMs, (deciding ?? around[0])?.at ?? atMs);
  return { held, place: expectation.place, text: expectation.text, expected, seen, atMs, sinceMs, around };
}

function findingOf(index: TraceIndex, expectation: Expectation): Finding {
  switch (expectation.form) {
    case 'at':
      return weighAt(index, expectation);
    case 'always':
      return weighAlways(index, expectation);
    case 'never':
      return weighNever(index, expectation);
    case 'within':
      return weighWithin(index, expectation);
    case 'rises by':
      return weighRise(index, expectation);
  }
}
