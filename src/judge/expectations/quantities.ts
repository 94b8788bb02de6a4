// Where each quantity of an expectation comes from in a trace, as a step function.
import { U_PER_POINT } from '../../exposure/dose.js';
import type { Quantity } from '../../scenario/expectation.js';
import { quotientText } from './decimal.js';
import { Series } from './series.js';
import type { EventIn, TraceIndex } from './trace-index.js';

const WINDOW_MS = 100;

/** How amounts of a quantity are compared and written. */
export interface Measure {
  /** So many units of the series make one of what the expectation counts in. */
  readonly unitsPerOne: number;
  /** Written after a number, with the space before it. */
  readonly unit: string;
  /** Places by which the decimal point moves to the left in writing. */
  readonly shift: number;
}

export interface Reading extends Measure {
  readonly what: string;
  /** Null where there is no number: the display is blank. */
  readonly series: Series<number | null>;
  readonly devices: readonly string[];
}

const POINTS: Measure = { unitsPerOne: U_PER_POINT, unit: ' points', shift: 0 };
const DOSE: Measure = { unitsPerOne: 1, unit: ' u', shift: 0 };
const TIME: Measure = { unitsPerOne: 1, unit: ' s', shift: 3 };
const NUMBER: Measure = { unitsPerOne: 1, unit: '', shift: 0 };

export function read(index: TraceIndex, quantity: Quantity): Reading {
  switch (quantity.of) {
    case 'points':
      return { ...POINTS, ...ofWorker(`the points of ${quantity.worker}`, index, quantity.worker) };
    case 'ledger dose':
      return { ...DOSE, ...ofWorker(`the dose on ${quantity.worker}'s ledger`, index, quantity.worker) };
    case 'counter dose':
      return { ...DOSE, ...ofCounter('dose', index, quantity.tool, quantity.session, (sums) => sums.dose) };
    case 'trigger time':
      return { ...TIME, ...ofCounter(quantity.of, index, quantity.tool, quantity.session, triggerMs) };
    case 'unrated time':
      return { ...TIME, ...ofCounter(quantity.of, index, quantity.tool, quantity.session, unratedMs) };
    case 'unclaimed dose':
      return { ...DOSE, ...ofCounter('unclaimed dose', index, quantity.tool, 0, (sums) => sums.dose) };
    case 'short bursts':
      return { ...NUMBER, ...ofCounter(quantity.of, index, quantity.tool, null, shortBursts) };
    case 'display value':
      return { ...NUMBER, ...ofDisplay('number', index, quantity.device, (display) => display.value) };
    case 'second number':
      return { ...NUMBER, ...ofDisplay(quantity.of, index, quantity.tool, (display) => display.second) };
    case 'power losses':
      return { ...NUMBER, ...ofReports(index, quantity.tool) };
    case 'torn records':
      return { ...NUMBER, ...ofStart(quantity.of, index, quantity.device, (found) => found.torn) };
    case 'retired pages':
      return { ...NUMBER, ...ofStart(quantity.of, index, quantity.device, (found) => found.retired) };
    case 'refused frames':
      return { ...NUMBER, ...ofRefusals(index, quantity.device, quantity.reason) };
  }
}

/** An amount in words: "19.25 points (3465000000 u)"; "nothing" where there is none. */
export function amountText(measure: Measure, amount: number | null): string {
  if (amount === null) return 'nothing';
  if (measure.unitsPerOne === 1) return quotientText(amount, 10 ** measure.shift) + measure.unit;
  return `${quotientText(amount, measure.unitsPerOne)}${measure.unit} (${amount} u)`;
}

type Source = Pick<Reading, 'what' | 'series' | 'devices'>;

/**
 * The dose of the worker's newest shift: a shift that opens starts from 0, and late dose of an older one does not count. A
 * wearable that has lost its power says what it still has when it starts again.
 */
function ofWorker(what: string, index: TraceIndex, worker: string): Source {
  const series = new Series<number | null>(0);
  let shift = 0;
  for (const event of index.of('inner.shift', 'inner.ledger', 'inner.resumed')) {
    if (event.by !== worker) continue;
    if (event.kind === 'inner.ledger') {
      if (event.shift === shift) series.push(event.at, event.n, event.total);
    } else if (event.kind === 'inner.resumed') {
      if (event.shift === shift) series.push(event.at, event.n, event.dose);
    } else if (event.what === 'opened') {
      shift = event.shift;
      series.push(event.at, event.n, 0);
    }
  }
  return { what, series, devices: [worker] };
}

type SumsEvent = EventIn<'inner.count' | 'air.tally'>;
type Field = (event: SumsEvent) => number;

const triggerMs: Field = (event) => event.triggerWindows * WINDOW_MS;
const unratedMs: Field = (event) => event.unratedWindows * WINDOW_MS;
/** A tally does not tell how many; only the counter's own sums do. */
const shortBursts: Field = (event) => (event.kind === 'inner.count' ? event.shortBursts : 0);

/**
 * What is known of one session, or the sum of that over all sessions and the unclaimed where session is null. What the counter
 * says of its own sums counts, be it less than before: it has lost what its journal did not hold. Tallies may come late, and
 * never take anything back.
 */
function ofCounter(what: string, index: TraceIndex, tool: string, session: number | null, field: Field): Source {
  const series = new Series<number | null>(0);
  const known = new Map<number, number>();
  let sum = 0;
  for (const event of index.of('inner.count', 'air.tally')) {
    if (event.by !== tool || (session !== null && event.session !== session)) continue;
    const before = known.get(event.session) ?? 0;
    const value = event.kind === 'inner.count' ? field(event) : Math.max(before, field(event));
    known.set(event.session, value);
    sum += value - before;
    series.push(event.at, event.n, sum);
  }
  const of = session === null || session === 0 ? '' : ` in session ${session}`;
  return { what: `the ${what} of ${tool}'s counter${of}`, series, devices: [tool] };
}

type Place = (display: EventIn<'shown.display'>) => number;

function ofDisplay(what: string, index: TraceIndex, device: string, place: Place): Source {
  const series = new Series<number | null>(null);
  for (const event of index.of('shown.display')) {
    if (event.by === device) series.push(event.at, event.n, place(event) === -1 ? null : place(event));
  }
  return { what: `the ${what} on ${device}'s display`, series, devices: [device] };
}

type Found = (found: EventIn<'flash.recovered'>) => number;

function ofStart(what: string, index: TraceIndex, device: string, field: Found): Source {
  const series = new Series<number | null>(0);
  for (const event of index.of('flash.recovered')) {
    if (event.by === device) series.push(event.at, event.n, field(event));
  }
  return { what: `the ${what} that ${device} found at its last start`, series, devices: [device] };
}

function ofReports(index: TraceIndex, tool: string): Source {
  const series = new Series<number | null>(0);
  for (const event of index.of('air.report')) {
    if (event.by === tool) series.push(event.at, event.n, event.powerLosses);
  }
  return { what: `the power losses that ${tool}'s counter reports`, series, devices: [tool] };
}

function ofRefusals(index: TraceIndex, device: string, reason: string | null): Source {
  const series = new Series<number | null>(0);
  let count = 0;
  for (const event of index.of('air.refused')) {
    if (event.by !== device || (reason !== null && event.reason !== reason)) continue;
    count += 1;
    series.push(event.at, event.n, count);
  }
  return {
    what: `the frames refused by ${device}${reason === null ? '' : ` as ${reason}`}`,
    series,
    devices: [device],
  };
}
