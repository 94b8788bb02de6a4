import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalLine, outwardLine } from '../../src/trace/canonical.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { ALL_KINDS, arbitraryEvent, isInner } from './arbitrary-trace.js';

const START = { n: 41, at: 43_200_000, by: 'Edda', kind: 'hand.start', cause: 7, held: true, tool: 'breaker' } as const;

/** The plain way: JSON of a copy whose keys were put in order, all the way down. */
function plainLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(plainLine).join()}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([key, one]) => `${JSON.stringify(key)}:${plainLine(one)}`).join()}}`;
}

function withField(name: string, value: unknown): TraceEvent {
  return { ...START, [name]: value } as unknown as TraceEvent;
}

describe('the canonical line', () => {
  it('is what one would write by hand', () => {
    expect(canonicalLine(START)).toBe(
      '{"at":43200000,"by":"Edda","cause":7,"held":true,"kind":"hand.start","n":41,"tool":"breaker"}',
    );
    expect(outwardLine(START)).toBe('{"at":43200000,"by":"Edda","held":true,"kind":"hand.start","tool":"breaker"}');
  });

  it.each(ALL_KINDS)('of %s has sorted keys and nothing besides, whatever its fields say', (kind) => {
    fc.assert(
      fc.property(arbitraryEvent(kind), (event) => {
        const line = canonicalLine(event);
        expect(line).toBe(plainLine(event));
        expect(line).not.toMatch(/[\n\r]/);
        expect(new TextEncoder().encode(line).length).toBe(Buffer.byteLength(plainLine(event)));
      }),
      { numRuns: 30 },
    );
  });

  it.each(ALL_KINDS)('outward leaves n, cause and bytes out, and is empty for what is inner: %s', (kind) => {
    fc.assert(
      fc.property(arbitraryEvent(kind), (event) => {
        const { n: _, cause: __, bytes: ___, ...outward } = event as TraceEvent & { readonly bytes?: string };
        expect(outwardLine(event)).toBe(isInner(kind) ? '' : plainLine(outward));
      }),
      { numRuns: 20 },
    );
  });

  it('holds whole numbers up to the safe ones, and no other', () => {
    for (const at of [0, 9, 10, 999_999_999, 1_000_000_000, 1_000_000_001, 2 ** 52, Number.MAX_SAFE_INTEGER]) {
      expect(canonicalLine(withField('at', at))).toContain(`{"at":${at},`);
      expect(canonicalLine(withField('at', -at))).toContain(`{"at":${-at},`);
    }
    for (const at of [0.5, Number.MAX_SAFE_INTEGER + 1, Number.NaN, Infinity, '5', null, undefined]) {
      expect(() => canonicalLine(withField('at', at))).toThrow('safe integers only');
    }
  });

  it('misses no field and takes none of the wrong type', () => {
    for (const held of [undefined, 1, 'true', null]) expect(() => canonicalLine(withField('held', held))).toThrow();
    for (const tool of [undefined, 1, null, ['saw']]) expect(() => canonicalLine(withField('tool', tool))).toThrow();
    const leave = (who: unknown) => ({ n: 1, at: 0, by: 'Edda', kind: 'hand.leave', cause: 0, who }) as TraceEvent;
    expect(canonicalLine(leave(['Edda', 'saw']))).toContain('"who":["Edda","saw"]');
    for (const who of [undefined, 'Edda', [1], [null]]) expect(() => canonicalLine(leave(who))).toThrow();
    const record = (bytes: unknown) => ({ ...leave([]), kind: 'shown.record', bytes }) as unknown as TraceEvent;
    expect(canonicalLine(record('00ff'))).toContain('"bytes":"00ff"');
    expect(canonicalLine(record(''))).toContain('"bytes":""');
    for (const bytes of [undefined, null, 1, ['00']]) expect(() => canonicalLine(record(bytes))).toThrow('no bytes');
    const levels = (points: number) => [{ compare: 'reached', level: 'action', points }];
    const worker = (points: number) => ({ ...leave([]), kind: 'hand.worker', levels: levels(points) }) as TraceEvent;
    expect(canonicalLine(worker(100))).toContain('[{"compare":"reached","level":"action","points":100}]');
    expect(() => canonicalLine(worker(99.5))).toThrow('safe integers only');
  });

  it('refuses a kind that is in no table, and goes on afterwards', () => {
    expect(() => canonicalLine(withField('kind', 'hand.strat'))).toThrow('unknown kind of event: hand.strat');
    expect(() => canonicalLine(withField('tool', 7))).toThrow();
    expect(canonicalLine(START)).toBe(plainLine(START));
  });

  it('is bounded in length', () => {
    expect(() => canonicalLine(withField('tool', 'x'.repeat(70_000)))).toThrow('longer than');
    expect(canonicalLine(START)).toBe(plainLine(START));
  });
});
