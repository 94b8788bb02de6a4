// The forms of an expectation about moments and spans: at, always, never, rises by.
import type { Claim, Expectation, Happening } from '../../scenario/expectation.js';
import { clockText } from '../../trace/clock.js';
import { type Moment, readClaim } from './claims.js';
import { compares, comparisonText } from './decimal.js';
import { type Finding, finding, type Subject, vacuous } from './finding.js';
import { readHappening } from './happenings.js';
import { amountText, read } from './quantities.js';
import type { TraceIndex } from './trace-index.js';

type Form<F extends Expectation['form']> = Extract<Expectation, { form: F }>;

export function weighAt(index: TraceIndex, { atMs, claim }: Form<'at'>): Finding {
  const read = readClaim(index, claim);
  const subject = { expected: `at ${clock(index, atMs)}: ${read.expected}`, devices: read.devices };
  if (atMs > index.endMs) return vacuous(subject, `the day ends at ${clock(index, index.endMs)}`, index.endMs);
  const moment = read.at(atMs);
  return finding(subject, moment.holds, seenText(index, moment), atMs, moment.n);
}

export function weighAlways(index: TraceIndex, { fromMs, untilMs, claim }: Form<'always'>): Finding {
  return weighSpan(index, fromMs, untilMs, claim, true);
}

export function weighNever(index: TraceIndex, { fromMs, untilMs, claim }: Form<'never'>): Finding {
  if ('happening' in claim) return weighNeverHappens(index, fromMs, untilMs, claim.happening);
  return weighSpan(index, fromMs, untilMs, claim, false);
}

/** The claim holds at every moment of the span, or (wanted false) at none. */
function weighSpan(index: TraceIndex, fromMs: number, untilMs: number, claim: Claim, wanted: boolean): Finding {
  const read = readClaim(index, claim);
  const expected = `${wanted ? 'always' : 'never'} ${span(index, fromMs, untilMs)}: ${read.expected}`;
  const subject = { expected, devices: read.devices };
  if (isEmpty(index, fromMs, untilMs)) return vacuous(subject, 'that span is empty', fromMs);
  const moments = read.between(fromMs, untilMs);
  const broken = moments.find((moment) => moment.holds !== wanted);
  const shown = broken ?? lastOf(moments);
  return finding(subject, broken === undefined, seenText(index, shown), Math.max(fromMs, shown.atMs), shown.n);
}

function weighNeverHappens(index: TraceIndex, fromMs: number, untilMs: number, happening: Happening): Finding {
  const { what, devices, events } = readHappening(index, happening);
  const subject: Subject = { expected: `never ${span(index, fromMs, untilMs)}: ${what}`, devices };
  if (isEmpty(index, fromMs, untilMs)) return vacuous(subject, 'that span is empty', fromMs);
  const event = events.find(({ at }) => at >= fromMs && at < untilMs);
  if (event === undefined) return finding(subject, true, 'it did not happen', Math.min(untilMs, index.endMs), 0);
  return finding(subject, false, `it happened at ${clock(index, event.at)}`, event.at, event.n);
}

export function weighRise(index: TraceIndex, { fromMs, untilMs, quantity, compare }: Form<'rises by'>): Finding {
  const reading = read(index, quantity);
  const wanted = comparisonText(compare, reading.unit, reading.shift);
  const subject = {
    expected: `${span(index, fromMs, untilMs)}: ${reading.what} rises by ${wanted}`,
    devices: reading.devices,
  };
  if (fromMs >= untilMs) return vacuous(subject, 'that span is empty', fromMs);
  if (untilMs > index.endMs) return vacuous(subject, `the day ends at ${clock(index, index.endMs)}`, index.endMs);
  const before = reading.series.stepAt(fromMs);
  const after = reading.series.stepAt(untilMs);
  const seen = `from ${amountText(reading, before.value)} to ${amountText(reading, after.value)}`;
  if (before.value === null || after.value === null) return finding(subject, false, seen, untilMs, after.n);
  const rise = after.value - before.value;
  const held = compares(compare, rise, reading.unitsPerOne);
  return finding(subject, held, `a rise by ${amountText(reading, rise)}, ${seen}`, untilMs, after.n);
}

export function clock(index: TraceIndex, atMs: number): string {
  return clockText(index.fromMs, atMs);
}

/** "19.25 points (3465000000 u) since 07:38:12" */
export function seenText(index: TraceIndex, moment: Moment): string {
  return moment.n === 0 ? `${moment.seen} from the start` : `${moment.seen} since ${clock(index, moment.atMs)}`;
}

function span(index: TraceIndex, fromMs: number, untilMs: number): string {
  return `from ${clock(index, fromMs)} until ${clock(index, untilMs)}`;
}

/** Nothing happens at or after the end of the day. */
function isEmpty(index: TraceIndex, fromMs: number, untilMs: number): boolean {
  return fromMs >= Math.min(untilMs, index.endMs);
}

function lastOf(moments: readonly Moment[]): Moment {
  const last = moments.at(-1);
  if (last === undefined) throw new Error('a span that is not empty has a moment');
  return last;
}
