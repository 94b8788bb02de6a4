import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RandomStream } from '../../../sim/kernel/random.js';
import { type AirConditions, arrivals, CLEAR_AIR, flipBits } from '../../../sim/radio/radio.js';

function air(conditions: Partial<AirConditions>): AirConditions {
  return { ...CLEAR_AIR, ...conditions };
}

const CONDITIONS = fc.record({
  lossNum: fc.nat(3),
  lossDen: fc.integer({ min: 1, max: 3 }),
  duplicateNum: fc.nat(3),
  duplicateDen: fc.integer({ min: 1, max: 3 }),
  errorNum: fc.nat(3),
  errorDen: fc.integer({ min: 1, max: 3 }),
  delayFromMs: fc.nat(50),
});

describe('arrivals', () => {
  it('gives none, one or two arrivals, each within the delays', () => {
    fc.assert(
      fc.property(CONDITIONS, fc.nat(100), fc.nat(), (conditions, spanMs, seed) => {
        const delayToMs = conditions.delayFromMs + spanMs;
        const copies = arrivals({ ...conditions, delayToMs }, RandomStream.named(seed, 'air'));
        expect(copies.length).toBeLessThanOrEqual(2);
        for (const { delayMs } of copies) {
          expect(delayMs).toBeGreaterThanOrEqual(conditions.delayFromMs);
          expect(delayMs).toBeLessThanOrEqual(delayToMs);
        }
      }),
    );
  });

  it('loses all, doubles all, or neither, where that is certain', () => {
    const random = RandomStream.named(3, 'air');
    expect(arrivals(air({ lossNum: 1, lossDen: 1 }), random)).toEqual([]);
    expect(arrivals(air({ duplicateNum: 1, duplicateDen: 1 }), random)).toHaveLength(2);
    for (let frame = 0; frame < 200; frame++) expect(arrivals(CLEAR_AIR, random)).toHaveLength(1);
  });

  it('gives each copy of a frame a delay of its own', () => {
    const random = RandomStream.named(6, 'air');
    const doubled = air({ duplicateNum: 1, duplicateDen: 1, delayToMs: 1000 });
    const copies = Array.from({ length: 50 }, () => arrivals(doubled, random));
    expect(copies.filter(([first, second]) => first!.delayMs !== second!.delayMs).length).toBeGreaterThan(40);
  });

  it('loses and doubles as often as the ratios say', () => {
    const random = RandomStream.named(4, 'air');
    const counts = [0, 0, 0];
    const conditions = air({ lossNum: 1, lossDen: 3, duplicateNum: 1, duplicateDen: 4 });
    for (let frame = 0; frame < 12_000; frame++) counts[arrivals(conditions, random).length]! += 1;
    // 4000 lost, 2000 of the other 8000 doubled; five standard deviations (52 and 41) either way.
    expect(Math.abs(counts[0]! - 4000)).toBeLessThan(260);
    expect(Math.abs(counts[2]! - 2000)).toBeLessThan(205);
  });

  it('reorders frames where the delays span more than the time between them', () => {
    const random = RandomStream.named(5, 'air');
    const arrivedMs = Array.from({ length: 100 }, (_, frame) => {
      const [copy] = arrivals(air({ delayFromMs: 1, delayToMs: 2000 }), random);
      return frame * 100 + copy!.delayMs;
    });
    expect(arrivedMs.some((atMs, frame) => frame > 0 && atMs < arrivedMs[frame - 1]!)).toBe(true);
  });

  it('flips bits in each copy on its own, as often as the ratio says, and in none where there are no errors', () => {
    const random = RandomStream.named(8, 'air');
    const doubled = air({ duplicateNum: 1, duplicateDen: 1, errorNum: 1, errorDen: 4 });
    const counts = [0, 0, 0];
    for (let frame = 0; frame < 8000; frame++) {
      counts[arrivals(doubled, random).filter(({ flips }) => flips).length]! += 1;
      expect(arrivals(CLEAR_AIR, random)[0]!.flips).toBe(false);
    }
    // Of 16 copies 9 pairs whole, 6 with one flipped, 1 with both: 4500, 3000, 500; five standard deviations either way.
    expect(Math.abs(counts[0]! - 4500)).toBeLessThan(222);
    expect(Math.abs(counts[2]! - 500)).toBeLessThan(109);
  });

  // Pinned: chance without bit errors is what it was before there were any, so that no trace changes.
  it('draws for errors only where there are some', () => {
    const random = RandomStream.named(7, 'air breaker / Edda');
    const conditions = air({ lossNum: 1, lossDen: 5, duplicateNum: 1, duplicateDen: 3, delayToMs: 900 });
    const delaysMs = Array.from({ length: 8 }, () => arrivals(conditions, random).map(({ delayMs }) => delayMs));
    expect(delaysMs).toEqual([[184, 111], [352], [316], [208, 90], [194], [485], [211, 14], [523]]);
    expect(random.drawn).toBe(27);
  });
});

function flippedBits(before: Uint8Array, after: Uint8Array): number {
  let bits = 0;
  for (const [at, byte] of before.entries()) {
    for (let difference = byte ^ after[at]!; difference > 0; difference >>= 1) bits += difference & 1;
  }
  return bits;
}

describe('flipBits', () => {
  it('gives a copy of the same length in which 1 to 8 bits differ', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 30 }), fc.nat(), (bytes, seed) => {
        const before = bytes.slice();
        const after = flipBits(bytes, RandomStream.named(seed, 'air'));
        expect(bytes).toEqual(before);
        expect(after).toHaveLength(bytes.length);
        expect(flippedBits(before, after)).toBeGreaterThanOrEqual(1);
        expect(flippedBits(before, after)).toBeLessThanOrEqual(8);
      }),
    );
  });

  it('flips every bit, and every number of bits, in the end', () => {
    const random = RandomStream.named(9, 'air');
    const seen = new Uint8Array(4);
    const numbers = new Set<number>();
    for (let frame = 0; frame < 1000; frame++) {
      const after = flipBits(new Uint8Array(4), random);
      for (const [at, byte] of after.entries()) seen[at]! |= byte;
      numbers.add(flippedBits(new Uint8Array(4), after));
    }
    expect([...seen]).toEqual([255, 255, 255, 255]);
    expect([...numbers].sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('flips one bit as often as two, and so on to eight', () => {
    const random = RandomStream.named(10, 'air');
    const counts = Array.from({ length: 9 }, () => 0);
    for (let frame = 0; frame < 8000; frame++) {
      counts[flippedBits(new Uint8Array(1), flipBits(new Uint8Array(1), random))]! += 1;
    }
    // 1000 of each; five standard deviations (30) either way.
    for (const count of counts.slice(1)) expect(Math.abs(count - 1000)).toBeLessThan(150);
  });

  it('leaves no bytes as they are', () => {
    expect(flipBits(new Uint8Array(0), RandomStream.named(1, 'air'))).toEqual(new Uint8Array(0));
  });
});
