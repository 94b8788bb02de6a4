import { describe, expect, it } from 'vitest';
import { RATE_HZ, smoothStep, tone, wave } from '../../../sim/handwork/wave.js';

describe('wave', () => {
  it('is a sine but for 0.2 % of its crest', () => {
    for (let part = 0; part < 1000; part++) {
      expect(Math.abs(wave(part / 1000) - Math.sin((2 * Math.PI * part) / 1000)), `${part}`).toBeLessThan(0.002);
    }
    expect([wave(0), wave(0.25), wave(0.75)]).toEqual([0, 1, -1]);
  });
});

describe('tone', () => {
  it('comes again each second, however late it is', () => {
    const aDayLater = 86_400 * RATE_HZ;
    for (const sample of [0, 1, 17, 4001]) expect(tone(105, sample + aDayLater)).toBe(tone(105, sample));
    expect(tone(1000, 2)).toBe(1);
  });
});

describe('smoothStep', () => {
  it('rises from 0 to 1 and stays there', () => {
    expect([-1, 0, 0.5, 1, 2].map(smoothStep)).toEqual([0, 0, 0.5, 1, 1]);
    expect(smoothStep(0.01)).toBeLessThan(0.001);
    expect(smoothStep(0.99)).toBeGreaterThan(0.999);
  });
});
