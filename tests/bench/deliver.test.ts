// A frame that somebody has recorded, handed to a device at a moment of a test's choice.
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { MINUTE_MS, smallDay } from './small-day.js';

const FRAME = Uint8Array.of(0x09, 0x12, 0x34);

test('it arrives then, and the trace tells whose it was and what became of it', () => {
  const bench = Bench.open(smallDay([]));
  bench.deliver(MINUTE_MS, 'Edda', FRAME);
  expect(bench.nowMs).toBe(MINUTE_MS);
  const air = bench.events.filter(({ kind }) => kind.startsWith('air.'));
  expect(air).toMatchObject([
    { kind: 'air.injected', at: MINUTE_MS, by: 'bench', bytes: '091234', how: 'replay', to: 'Edda', cause: 0 },
    { kind: 'air.heard', at: MINUTE_MS, by: 'Edda', frame: 'injected', from: 'bench', cause: air[0]!.n },
    { kind: 'air.refused', at: MINUTE_MS, by: 'Edda', frame: 'injected', from: 'bench', reason: 'length' },
  ]);
  expect(bench.run().refused.Edda).toEqual({ length: 1 });
});

test('a device without power hears nothing', () => {
  const off = { atMs: 0, do: 'cut', device: 'saw', when: 'now', afterBytes: 0, forMs: 2 * MINUTE_MS } as const;
  const bench = Bench.open(smallDay([off]));
  bench.deliver(MINUTE_MS, 'saw', FRAME);
  expect(bench.run().refused.saw).toEqual({});
});

test('there must be such a device', () => {
  expect(() => Bench.open(smallDay([])).deliver(0, 'plane', FRAME)).toThrow('plane');
});
