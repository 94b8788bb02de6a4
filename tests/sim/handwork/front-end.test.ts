import { describe, expect, it } from 'vitest';
import { acceleration, type Motion } from '../../../sim/handwork/acceleration.js';
import { FrontEnd, SETTLE_MS, settledFrontEnd } from '../../../sim/handwork/front-end.js';
import { RATE_HZ } from '../../../sim/handwork/wave.js';

const SENSOR = { seed: 7, name: 'breaker' };
const BURST: Motion = { vibration: 'percussive', fromMs: 1030, untilMs: 3470 };

/** Gain of a sine once the front end has settled; 10 s are whole turns of each. */
function gainAt(hz: number): number {
  const frontEnd = new FrontEnd();
  const sine = Float64Array.from(
    { length: 12 * RATE_HZ },
    (_, at) => 1000 * Math.sin((2 * Math.PI * hz * at) / RATE_HZ),
  );
  frontEnd.level(sine.subarray(0, 2 * RATE_HZ));
  return (frontEnd.level(sine.subarray(2 * RATE_HZ)) * Math.SQRT2) / 1e6;
}

/** ISO 8041-1:2017, band-limiting: second order, Q = 1/√2, corners at 10^0.8 and 10^3.1 Hz. */
function definedAt(hz: number): number {
  const high = (hz / 10 ** 0.8) ** 4;
  const low = (hz / 10 ** 3.1) ** 4;
  return Math.sqrt(high / (1 + high) / (1 + low));
}

describe('FrontEnd', () => {
  it('limits the band as the standard defines, within 1.5 % up to 800 Hz', () => {
    for (const hz of [2, 4, 6.3, 8, 16, 100, 400, 800]) {
      expect(gainAt(hz) / definedAt(hz), `${hz} Hz`).toBeGreaterThan(0.985);
      expect(gainAt(hz) / definedAt(hz), `${hz} Hz`).toBeLessThan(1.015);
    }
    // The bilinear transform bends only above the corner, where it takes away more.
    expect(gainAt(10 ** 3.1)).toBeCloseTo(definedAt(10 ** 3.1), 3);
    expect(gainAt(2500)).toBeLessThan(definedAt(2500));
  });

  it('takes gravity away', () => {
    const frontEnd = new FrontEnd();
    const still = new Float64Array(RATE_HZ).fill(9.81);
    frontEnd.level(still);
    expect(frontEnd.level(still)).toBe(0);
  });

  it('reads the same however the samples before are cut', () => {
    const samples = acceleration(SENSOR, [BURST], 0, 4000);
    const whole = new FrontEnd();
    const cut = new FrontEnd();
    whole.level(samples.subarray(0, 24_000));
    for (const [from, to] of [
      [0, 1],
      [1, 800],
      [800, 24_000],
    ])
      cut.level(samples.subarray(from, to));
    expect(cut.level(samples.subarray(24_000))).toBe(whole.level(samples.subarray(24_000)));
  });
});

/** Level of the window of 100 ms that begins at fromMs. */
function levelAt(fromMs: number): number {
  return settledFrontEnd(SENSOR, [BURST], fromMs).level(acceleration(SENSOR, [BURST], fromMs, fromMs + 100));
}

describe('settledFrontEnd', () => {
  it('reads by itself what a front end reads that has listened all along', () => {
    const frontEnd = new FrontEnd();
    for (let fromMs = 0; fromMs < 4000; fromMs += 100) {
      const level = frontEnd.level(acceleration(SENSOR, [BURST], fromMs, fromMs + 100));
      const alone = levelAt(fromMs);
      expect(Math.abs(alone - level), `${fromMs} ms: ${alone} and ${level}`).toBeLessThanOrEqual(1 + level / 1000);
    }
    expect(SETTLE_MS % 100).toBe(0);
  });

  // Pinned, not published: a last bit that differs on some machine, or a change of a wave, changes traces, and must be seen here.
  it('reads what it always read', () => {
    const levels = [900, 1000, 1100, 2000, 3400, 3500, 3900].map((ms) => levelAt(ms));
    expect(levels).toEqual([81, 38_213, 64_984, 64_013, 27_736, 145, 70]);
  });
});
