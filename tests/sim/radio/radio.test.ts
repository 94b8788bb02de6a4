import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RandomStream } from '../../../sim/kernel/random.js';
import { type AirConditions, arrivalsMs, CLEAR_AIR } from '../../../sim/radio/radio.js';

function air(conditions: Partial<AirConditions>): AirConditions {
  return { ...CLEAR_AIR, ...conditions };
}

const CONDITIONS = fc.record({
  lossNum: fc.nat(3),
  lossDen: fc.integer({ min: 1, max: 3 }),
  duplicateNum: fc.nat(3),
  duplicateDen: fc.integer({ min: 1, max: 3 }),
  delayFromMs: fc.integer({ min: 1, max: 50 }),
});

describe('arrivalsMs', () => {
  it('gives none, one or two arrivals, each within the delays', () => {
    fc.assert(
      fc.property(CONDITIONS, fc.nat(100), fc.nat(), (conditions, spanMs, seed) => {
        const delayToMs = conditions.delayFromMs + spanMs;
        const arrivals = arrivalsMs({ ...conditions, delayToMs }, RandomStream.named(seed, 'air'));
        expect(arrivals.length).toBeLessThanOrEqual(2);
        for (const delayMs of arrivals) {
          expect(delayMs).toBeGreaterThanOrEqual(conditions.delayFromMs);
          expect(delayMs).toBeLessThanOrEqual(delayToMs);
        }
      }),
    );
  });

  it('loses all, doubles all, or neither, where that is certain', () => {
    const random = RandomStream.named(3, 'air');
    expect(arrivalsMs(air({ lossNum: 1, lossDen: 1 }), random)).toEqual([]);
    expect(arrivalsMs(air({ duplicateNum: 1, duplicateDen: 1 }), random)).toHaveLength(2);
    for (let frame = 0; frame < 200; frame++) expect(arrivalsMs(CLEAR_AIR, random)).toHaveLength(1);
  });

  it('gives each copy of a frame a delay of its own', () => {
    const random = RandomStream.named(6, 'air');
    const doubled = air({ duplicateNum: 1, duplicateDen: 1, delayToMs: 1000 });
    const copies = Array.from({ length: 50 }, () => arrivalsMs(doubled, random));
    expect(copies.filter(([first, second]) => first !== second).length).toBeGreaterThan(40);
  });

  it('loses and doubles as often as the ratios say', () => {
    const random = RandomStream.named(4, 'air');
    const counts = [0, 0, 0];
    const conditions = air({ lossNum: 1, lossDen: 3, duplicateNum: 1, duplicateDen: 4 });
    for (let frame = 0; frame < 12_000; frame++) counts[arrivalsMs(conditions, random).length]! += 1;
    // 4000 lost, 2000 of the other 8000 doubled; five standard deviations (52 and 41) either way.
    expect(Math.abs(counts[0]! - 4000)).toBeLessThan(260);
    expect(Math.abs(counts[2]! - 2000)).toBeLessThan(205);
  });

  it('reorders frames where the delays span more than the time between them', () => {
    const random = RandomStream.named(5, 'air');
    const arrivals = Array.from({ length: 100 }, (_, frame) => {
      const [delayMs] = arrivalsMs(air({ delayFromMs: 1, delayToMs: 2000 }), random);
      return frame * 100 + delayMs!;
    });
    expect(arrivals.some((atMs, frame) => frame > 0 && atMs < arrivals[frame - 1]!)).toBe(true);
  });
});
