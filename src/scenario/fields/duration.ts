// Lengths of time as a scenario writes them: 12s, 5m, 1h30m, 250ms; the units from large to small, each at most once.
import { quoted } from '../yaml/node.js';
import { MAX_SPAN_MS } from './clock.js';
import { type Field, type Refusal, refusal, scalarField } from './field.js';

const DURATION = /^(?:(\d{1,3})h)?(?:(\d{1,5})m)?(?:(\d{1,6})s)?(?:(\d{1,9})ms)?$/;
const EXPECTED = 'a length of time such as 12s, 5m, 1h30m or 250ms';

/** ms, or null where the text is no length of time. */
export function parseDuration(text: string): number | null {
  const parts = DURATION.exec(text);
  if (parts === null || text === '') return null;
  const [hours, minutes, seconds, ms] = parts.slice(1).map((part) => Number(part ?? 0));
  return (((hours ?? 0) * 60 + (minutes ?? 0)) * 60 + (seconds ?? 0)) * 1000 + (ms ?? 0);
}

/** What people call the units, in ms. */
const CALLED: readonly (readonly [RegExp, number])[] = [
  [/^(?:ms|msecs?|milliseconds?)$/, 1],
  [/^(?:s|secs?|seconds?)$/, 1000],
  [/^(?:m|mins?|minutes?)$/, 60_000],
  [/^(?:h|hrs?|hours?)$/, 3_600_000],
];
/** "1.5 hours", "1h 30m": numbers, each with a unit. */
const LIKE = /^(?:\d{1,9}(?:[.,]\d{1,3})? {0,2}[a-z]{1,12} {0,2}){1,4}$/i;

/** Why a text is no length of time, and what may have been meant; `expected` completes "expected …". */
export function noDuration(text: string, expected: string = EXPECTED): Refusal {
  if (/^\d{1,9}$/.test(text))
    return refusal(`${quoted(text)} has no unit`, `${expected}; perhaps ${text}s or ${text}m`);
  const ms = LIKE.test(text) ? meantMs(text.toLowerCase()) : null;
  const perhaps = ms === null || ms > MAX_SPAN_MS ? '' : `; perhaps ${formatDuration(ms)}`;
  return refusal(`${quoted(text)} is no length of time`, `${expected}${perhaps}`);
}

function meantMs(text: string): number | null {
  let sum = 0;
  for (const [, whole = '', fraction = '', unit = ''] of text.matchAll(/(\d+)(?:[.,](\d+))? *([a-z]+)/g)) {
    const [, unitMs] = CALLED.find(([called]) => called.test(unit)) ?? [];
    if (unitMs === undefined) return null;
    sum += (Number(whole + fraction) * unitMs) / 10 ** fraction.length;
  }
  return Number.isInteger(sum) ? sum : null;
}

/** The shortest text for a whole number of ms, 0 or more. */
export function formatDuration(ms: number): string {
  if (ms === 0) return '0ms';
  const parts = [
    [Math.floor(ms / 3_600_000), 'h'],
    [Math.floor(ms / 60_000) % 60, 'm'],
    [Math.floor(ms / 1000) % 60, 's'],
    [ms % 1000, 'ms'],
  ] as const;
  return parts
    .filter(([value]) => value > 0)
    .map(([value, unit]) => `${value}${unit}`)
    .join('');
}

/** A length of time of leastMs to mostMs. */
export function duration(leastMs = 1, mostMs = MAX_SPAN_MS): Field<number> {
  const range = `from ${formatDuration(leastMs)} to ${formatDuration(mostMs)}`;
  const meta = { type: 'string', description: EXPECTED, pattern: DURATION.source } as const;
  return scalarField(meta, 'text', (text) => {
    const ms = parseDuration(text);
    if (ms === null) return noDuration(text);
    return ms < leastMs || ms > mostMs ? refusal(`${text} is out of range`, `a length of time ${range}`) : ms;
  });
}

/** A length of time forwards, or backwards where a minus stands before it; not nothing. */
export const shiftDuration: Field<number> = scalarField(
  {
    type: 'string',
    description: 'a length of time such as 30m, or -30m for earlier',
    pattern: `^-?${DURATION.source.slice(1)}`,
  },
  'text',
  (text) => {
    const ms = parseDuration(text.replace(/^-/, ''));
    const expected = 'a length of time such as 30m, or -30m for earlier';
    if (ms === null || ms === 0 || ms > MAX_SPAN_MS)
      return refusal(`${quoted(text)} is no length of time to move by`, expected);
    return text.startsWith('-') ? -ms : ms;
  },
);
