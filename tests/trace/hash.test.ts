import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalLine, outwardLine } from '../../src/trace/canonical.js';
import { hashTrace, TraceHash } from '../../src/trace/hash.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryTrace, isInner } from './arbitrary-trace.js';
import { longDay } from './made-day.js';

function sha256(lines: readonly string[]): string {
  return createHash('sha256')
    .update(lines.map((line) => `${line}\n`).join(''))
    .digest('hex');
}

function renumbered(events: readonly TraceEvent[]): readonly TraceEvent[] {
  return events.map((event, index) => ({ ...event, n: index + 1, cause: 0 }));
}

describe('the hashes of a trace', () => {
  it('are those of its texts, so that sha256sum of the file gives the whole one', () => {
    const check = (events: readonly TraceEvent[]) => {
      const outward = events.map(outwardLine).filter((line) => line !== '');
      expect(hashTrace(events)).toEqual({ whole: sha256(events.map(canonicalLine)), outward: sha256(outward) });
    };
    fc.assert(fc.property(arbitraryTrace(), check));
    // Many times what is handed to the hash in one piece.
    check(longDay().events().slice(0, 5000));
  });

  it('of nothing are those of an empty text', () => {
    // FIPS 180-4 test data, from memory: SHA-256 of the empty message.
    const empty = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';
    expect(new TraceHash().digest()).toEqual({ whole: empty, outward: empty });
  });

  it('outward do not see inner events, numbers and causes; whole see all of them', () => {
    fc.assert(
      fc.property(arbitraryTrace(), (events) => {
        const outward = renumbered(events.filter(({ kind }) => !isInner(kind)));
        expect(hashTrace(outward).outward).toBe(hashTrace(events).outward);
        if (JSON.stringify(outward) !== JSON.stringify(renumbered(events))) {
          expect(hashTrace(outward).whole).not.toBe(hashTrace(events).whole);
        }
      }),
    );
  });

  it('see every field of every outward event', () => {
    const events = longDay().events().slice(0, 5000);
    const { whole, outward } = hashTrace(events);
    const index = events.findIndex(({ kind }) => kind === 'air.tally');
    const changed = [...events];
    changed[index] = { ...events[index], dose: 1 } as TraceEvent;
    const other = hashTrace(changed);
    expect([other.whole === whole, other.outward === outward]).toEqual([false, false]);
    changed[index] = { ...events[index], cause: 1 } as TraceEvent;
    const same = hashTrace(changed);
    expect([same.whole === whole, same.outward === outward]).toEqual([false, true]);
    // Each device makes its own bytes of a message: keys, and how they come about, are no part of what is compared.
    changed[index] = { ...events[index], bytes: '00' } as TraceEvent;
    const sealedOtherwise = hashTrace(changed);
    expect([sealedOtherwise.whole === whole, sealedOtherwise.outward === outward]).toEqual([false, true]);
  });
});
