import { describe, expect, it } from 'vitest';
import { Noise } from '../../../sim/handwork/noise.js';

describe('Noise', () => {
  it('is the same at a position, whatever was asked before', () => {
    const straight = new Noise(7, 'stone', 8);
    const inOrder = Array.from({ length: 5000 }, (_, sample) => straight.at(sample));
    const backwards = new Noise(7, 'stone', 8);
    for (let sample = 4999; sample >= 0; sample -= 7) expect(backwards.at(sample)).toBe(inOrder[sample]);
  });

  it('differs by seed and by name', () => {
    const at = [new Noise(7, 'stone', 8), new Noise(8, 'stone', 8), new Noise(7, 'hand', 8)].map((noise) =>
      noise.at(40),
    );
    expect(new Set(at).size).toBe(3);
  });

  it('goes in straight lines from knot to knot, also from block to block', () => {
    const EVERY = 10;
    const noise = new Noise(7, 'road', EVERY);
    for (let knot = 120; knot < 140; knot++) {
      const [from, middle, to] = [noise.at(knot * EVERY), noise.at(knot * EVERY + 5), noise.at((knot + 1) * EVERY)];
      expect(middle).toBeCloseTo((from + to) / 2, 12);
    }
  });

  it('keeps within -1..1, fills it evenly and has no mean', () => {
    const noise = new Noise(7, 'road', 1);
    const knots = Array.from({ length: 20_000 }, (_, knot) => noise.at(knot));
    expect(Math.min(...knots)).toBeGreaterThanOrEqual(-1);
    expect(Math.max(...knots)).toBeLessThan(1);
    expect(Math.abs(knots.reduce((sum, value) => sum + value, 0) / knots.length)).toBeLessThan(0.02);
    // Mean square of what lies evenly in -1..1.
    expect(knots.reduce((sum, value) => sum + value * value, 0) / knots.length).toBeCloseTo(1 / 3, 1);
  });
});
