// A claim of an expectation, ready to be weighed at any moment: does it hold, and what is seen.
import type { Claim, Condition } from '../../scenario/expectation.js';
import { compares, comparisonText } from './decimal.js';
import { amountText, read } from './quantities.js';
import { Series, type Step } from './series.js';
import type { TraceIndex } from './trace-index.js';

export interface Moment {
  readonly atMs: number;
  /** The event that brought this about; 0 where it was so from the start. */
  readonly n: number;
  readonly holds: boolean;
  readonly seen: string;
}

export interface ReadClaim {
  readonly expected: string;
  readonly devices: readonly string[];
  at(atMs: number): Moment;
  /** The moment at fromMs and every later change before untilMs. */
  between(fromMs: number, untilMs: number): readonly Moment[];
}

export function readClaim(index: TraceIndex, claim: Claim): ReadClaim {
  if ('condition' in claim) return readCondition(index, claim.condition);
  const reading = read(index, claim.quantity);
  const { compare } = claim;
  const holds = (value: number | null) => value !== null && compares(compare, value, reading.unitsPerOne);
  const expected = `${reading.what} ${comparisonText(compare, reading.unit, reading.shift)}`;
  return stepwise(expected, reading.devices, reading.series, holds, (value) => amountText(reading, value));
}

function readCondition(index: TraceIndex, condition: Condition): ReadClaim {
  const { device } = condition;
  switch (condition.of) {
    case 'display screen': {
      const series = new Series('');
      for (const event of index.of('shown.display')) {
        if (event.by === device) series.push(event.at, event.n, event.screen);
      }
      const expected = `the screen "${condition.is}" on ${device}'s display`;
      return stepwise(expected, [device], series, (screen) => screen === condition.is, quoted);
    }
    case 'display icon': {
      const series = new Series<readonly string[]>([]);
      for (const event of index.of('shown.display')) {
        if (event.by === device) series.push(event.at, event.n, event.icons);
      }
      const expected = `the icon "${condition.has}" on ${device}'s display`;
      return stepwise(expected, [device], series, (icons) => icons.includes(condition.has), iconsText);
    }
    case 'state': {
      const series = new Series('');
      for (const event of index.of('inner.state')) {
        if (event.by === device && event.region === condition.region) series.push(event.at, event.n, event.state);
      }
      const expected = `${device} in the state ${condition.region} "${condition.is}"`;
      return stepwise(expected, [device], series, (state) => state === condition.is, quoted);
    }
  }
}

function stepwise<T>(
  expected: string,
  devices: readonly string[],
  series: Series<T>,
  holds: (value: T) => boolean,
  seen: (value: T) => string,
): ReadClaim {
  const moment = ({ atMs, n, value }: Step<T>): Moment => ({ atMs, n, holds: holds(value), seen: seen(value) });
  return {
    expected,
    devices,
    at: (atMs) => moment(series.stepAt(atMs)),
    between: (fromMs, untilMs) => series.between(fromMs, untilMs).map(moment),
  };
}

function quoted(text: string): string {
  return text === '' ? 'nothing' : `"${text}"`;
}

function iconsText(icons: readonly string[]): string {
  return icons.length === 0 ? 'no icon' : icons.map(quoted).join(', ');
}
