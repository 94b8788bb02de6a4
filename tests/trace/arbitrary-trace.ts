// Events and traces of every kind for property tests, made from the table of kinds.
import fc from 'fast-check';
import { KINDS, type Kind, type TraceEvent } from '../../src/trace/kinds.js';

export const ALL_KINDS = Object.keys(KINDS) as readonly Kind[];

/** What the outward text leaves out altogether: what a device has within itself. */
export function isInner(kind: Kind): boolean {
  return kind.startsWith('inner.') || kind.startsWith('flash.');
}

/** Names with letters from everywhere, quotes and line feeds, and texts that end in the middle of a character. */
const text = fc.oneof(
  fc.constantFrom('breaker', 'Edda'),
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.constant('\ud800'),
);
const number = fc.oneof(fc.nat(100), fc.maxSafeInteger());
const level = fc.record({
  compare: fc.constantFrom('reached' as const, 'exceeded' as const),
  level: text,
  points: fc.nat(1000),
});

const VALUES: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  number,
  text,
  hex: fc.uint8Array({ maxLength: 40 }).map((bytes) => Buffer.from(bytes).toString('hex')),
  flag: fc.boolean(),
  texts: fc.array(text, { maxLength: 4 }),
  levels: fc.array(level, { maxLength: 4 }),
};

interface Loose {
  readonly laterMs: number;
  readonly by: string;
  readonly causeShare: number;
  readonly fields: Readonly<Record<string, unknown>>;
  readonly kind: Kind;
}

function looseEvent(kind: Kind): fc.Arbitrary<Loose> {
  const fields = Object.fromEntries(Object.entries(KINDS[kind]).map(([name, type]) => [name, VALUES[String(type)]!]));
  return fc.record({
    laterMs: fc.nat(100_000),
    by: text,
    causeShare: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
    fields: fc.record(fields),
    kind: fc.constant(kind),
  });
}

/** A trace as a recorder would number it: n from 1, times that do not go back, causes that lie before their effects. */
export function arbitraryTrace(): fc.Arbitrary<readonly TraceEvent[]> {
  return fc.array(fc.oneof(...ALL_KINDS.map(looseEvent)), { maxLength: 20 }).map(numbered);
}

/** One event of this kind; the fields stand in an order of their own. */
export function arbitraryEvent(kind: Kind): fc.Arbitrary<TraceEvent> {
  return looseEvent(kind).map((loose) => numbered([loose])[0]!);
}

function numbered(loose: readonly Loose[]): readonly TraceEvent[] {
  let at = 0;
  return loose.map(({ laterMs, by, causeShare, fields, kind }, index) => {
    at += laterMs;
    const cause = Math.floor(causeShare * (index + 1));
    return { ...fields, n: index + 1, kind, cause, by, at } as unknown as TraceEvent;
  });
}
