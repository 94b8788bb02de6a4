// Recordings of which the weighted value is known, measured.
import FFT from 'fft.js';
import { describe, expect, it, vi } from 'vitest';
import { RandomStream } from '../../../sim/kernel/random.js';
import { type Measured, measure } from '../../../src/vibration/values/measure.js';
import { THIRD_OCTAVES } from '../../../src/vibration/weighting/bands.js';
import { weightingAt } from '../../../src/vibration/weighting/definition.js';
import { type Made, madeRecording } from '../../rig/made-recording.js';

vi.setConfig({ testTimeout: 120_000 });

type Sine = readonly [hz: number, amplitude: number];

const sum = (sines: readonly Sine[]) => (s: number) =>
  sines.reduce((total, [hz, amplitude]) => total + amplitude * Math.sin(2 * Math.PI * hz * s + hz), 0);
const weightedOf = (sines: readonly Sine[]) =>
  Math.sqrt(sines.reduce((total, [hz, amplitude]) => total + (amplitude * weightingAt(hz)) ** 2 / 2, 0));

async function measured(made: Made): Promise<Measured> {
  const values = await measure(madeRecording(made));
  if (values === null) throw new Error('no value is given');
  return values;
}

const ROTARY: readonly Sine[] = [
  [80, 30],
  [160, 12],
  [12, 4],
];
const PERCUSSIVE: readonly Sine[] = [
  [24, 60],
  [48, 25],
  [500, 200],
  [1100, 150],
];
const SLOW: readonly Sine[] = [
  [7, 3],
  [9.5, 2],
];

describe('sines of which a_hw is known', () => {
  it.each([3200, 4000, 6400, 10_000, 25_600, 48_000])('measured at %d Hz, within 0.5 percent', async (rateHz) => {
    const seconds = 20;
    const values = await measured({ rateHz, seconds, axes: { x: sum(ROTARY), y: sum(PERCUSSIVE), z: sum(SLOW) } });
    const { x, y, z } = values.axes;
    for (const [axis, sines] of [
      [x, ROTARY],
      [y, PERCUSSIVE],
      [z, SLOW],
    ] as const) {
      expect(Math.abs(axis.weighted / weightedOf(sines) - 1)).toBeLessThan(0.005);
    }
    // a_hv = sqrt(a_hwx² + a_hwy² + a_hwz²): ISO 5349-1:2001, 4.5.
    expect(values.total).toBeCloseTo(Math.hypot(x.weighted, y.weighted, z.weighted), 9);
    expect([values.durationS, values.findings]).toEqual([seconds, []]);
  });

  it('a sine has a crest factor of √2, and its band value is its r.m.s.', async () => {
    const { axes } = await measured({ rateHz: 6400, seconds: 12, axes: { z: sum([[100, 10]]) } });
    expect(axes.z.crestFactor).toBeCloseTo(Math.SQRT2, 2);
    expect(Math.abs(axes.z.band / (10 / Math.SQRT2) - 1)).toBeLessThan(0.002);
  });
});

describe('what lies under the vibration', () => {
  it('is taken off and told: gravity changes nothing', async () => {
    const sines = sum(ROTARY);
    const axes = { x: (s: number) => sines(s) + 9.81, y: () => -2 };
    const plain = await measured({ rateHz: 6400, seconds: 10, axes: { x: sines } });
    const shifted = await measured({ rateHz: 6400, seconds: 10, axes });
    expect(shifted.axes.x.weighted).toBeCloseTo(plain.axes.x.weighted, 6);
    expect(shifted.axes.y.weighted).toBeLessThan(1e-9);
    expect(shifted.axes.x.offset).toBeCloseTo(9.81, 1);
    expect(shifted.axes.y.offset).toBe(-2);
  });

  it('is told as a DC shift where it moves', async () => {
    const sines = sum(PERCUSSIVE);
    const values = await measured({
      rateHz: 6400,
      seconds: 12,
      axes: { y: (s) => sines(s) + (s > 6 ? 80 : 0), x: sum(ROTARY), z: sum(ROTARY) },
    });
    expect(values.findings.map(({ what, weight }) => [what, weight])).toEqual([['dc-shift', 'doubts']]);
    expect(values.findings[0]?.says).toMatch(/^the mean of y moves by 80 m\/s² about 6\.\d s/);
  });

  it.each([
    ['that decay in 0.1 s, as after a blow', (s: number) => 200 * Math.exp(-(s % 3) / 0.1)],
    ['that jump at each blow', (s: number) => 60 * (Math.floor(s / 0.9) % 2)],
    ['of a recording of three seconds', (s: number) => (s > 1.5 ? 200 : 0)],
  ])('is told of shifts %s', async (name, shift) => {
    const sines = sum(PERCUSSIVE);
    const seconds = name.endsWith('three seconds') ? 3 : 12;
    const axes = { y: (s: number) => sines(s) + shift(s), x: sum(ROTARY), z: sum(ROTARY) };
    const values = await measured({ rateHz: 6400, seconds, axes });
    expect(values.findings.map(({ what }) => what)).toContain('dc-shift');
  });

  it('is not told of slow vibration', async () => {
    const slow = sum([[6.3, 30]]);
    expect((await measured({ rateHz: 6400, seconds: 12, axes: { x: slow, y: slow, z: slow } })).findings).toEqual([]);
  });
});

describe('noise confined to the bands', () => {
  it.each([6400, 25_600])(
    'has the same a_hw by filter and by third octaves within 1 percent, at %d Hz',
    async (rateHz) => {
      const values = await measured({
        rateHz,
        seconds: 60,
        axes: { x: confinedNoise(rateHz, 1), y: confinedNoise(rateHz, 2) },
      });
      for (const { weighted, weightedFromBands } of [values.axes.x, values.axes.y]) {
        expect(Math.abs(weightedFromBands! / weighted - 1)).toBeLessThan(0.01);
      }
    },
  );

  it('is too short for a spectrum below two and a half seconds, not for a value', async () => {
    const { axes } = await measured({ rateHz: 10_239, seconds: 2, axes: { x: sum([[8, 5]]) } });
    expect([axes.x.bands, axes.x.weightedFromBands]).toEqual([null, null]);
    expect(axes.x.weighted).toBeGreaterThan(1);
  });

  it.each([3200, 6400, 10_239, 51_200])('a slow sine is in no other band, at %d Hz', async (rateHz) => {
    const { axes } = await measured({ rateHz, seconds: 12, axes: { x: sum([[7.943, 5]]) } });
    const rms = 5 / Math.SQRT2;
    expect(Math.abs(axes.x.bands![1]! / rms - 1)).toBeLessThan(0.005);
    expect(Math.max(axes.x.bands![0]!, axes.x.bands![2]!) / rms).toBeLessThan(0.02);
  });

  it('a sine stands in its band, with its r.m.s.', async () => {
    const { axes } = await measured({ rateHz: 12_800, seconds: 15, axes: { x: sum([[125.9, 8]]) } });
    const at = THIRD_OCTAVES.findIndex(({ nominalHz }) => nominalHz === 125);
    expect(Math.abs(axes.x.bands![at]! / (8 / Math.SQRT2) - 1)).toBeLessThan(0.005);
    expect(axes.x.bands!.filter((_, index) => index !== at).every((rms) => rms < 0.05)).toBe(true);
  });
});

describe('gaps and blocks', () => {
  it('values do not depend on where blocks end', async () => {
    const made = { rateHz: 5000, seconds: 8, axes: { x: sum(ROTARY), y: sum(PERCUSSIVE) } };
    const one = await measured({ ...made, blockFrames: 40_000 });
    const other = await measured({ ...made, blockFrames: 4321 });
    expect(other.total).toBeCloseTo(one.total, 9);
    expect(other.axes.y.weightedFromBands).toBeCloseTo(one.axes.y.weightedFromBands!, 9);
  });

  it('a gap is no blow: each stretch settles by itself', async () => {
    const sines = sum(ROTARY);
    const axes = { x: (s: number, at: number) => sines(s) + (at < 20_000 ? 0 : 300) };
    const whole = await measured({ rateHz: 5000, seconds: 8, axes: { x: sines } });
    const cut = await measured({ rateHz: 5000, seconds: 8, axes, gaps: [20_000] });
    expect(Math.abs(cut.total / whole.total - 1)).toBeLessThan(0.01);
  });

  it('the greatest second is found', async () => {
    const axes = { x: (s: number) => (s > 5 && s <= 7 ? 5 : 1) * Math.sin(2 * Math.PI * 20 * s) };
    const { greatestSecond } = await measured({ rateHz: 6400, seconds: 10, axes });
    expect(Math.abs(greatestSecond! / ((5 / Math.SQRT2) * weightingAt(20)) - 1)).toBeLessThan(0.01);
  });
});

describe('what is not of a tool that ran all the time', () => {
  const whats = (values: Measured) => values.findings.map(({ what }) => what);
  const all = (of: (s: number) => number) => ({ x: of, y: of, z: of });
  const sines = sum(ROTARY);

  it('pauses are told: a counter counts only while it runs', async () => {
    const paused = await measured({ rateHz: 6400, seconds: 12, axes: all((s) => (s > 4 && s < 7 ? 0 : sines(s))) });
    expect(whats(paused)).toEqual(['pauses']);
    expect(paused.findings[0]?.says).toMatch(/^the tool stands still for 2\.[0-9] s: /);
  });

  it('a blow that sets the value is told', async () => {
    const axes = all((s) => sines(s) + (Math.abs(s - 8) < 0.001 ? 30_000 : 0));
    expect(whats(await measured({ rateHz: 6400, seconds: 12, axes }))).toContain('uneven');
  });

  it('an axis that has next to nothing is told', async () => {
    const axes = { ...all(sines), z: (s: number) => sines(s) / 200 };
    expect(whats(await measured({ rateHz: 6400, seconds: 12, axes }))).toEqual(['axis-weak']);
  });

  it('stretches too short for low frequencies are left out, and told', async () => {
    const gaps = [32_000, 33_000, 34_000];
    const values = await measured({ rateHz: 6400, seconds: 12, axes: all(sines), gaps });
    const whole = await measured({ rateHz: 6400, seconds: 12, axes: all(sines) });
    expect(whats(values)).toEqual(['short-stretches']);
    expect(values.durationS).toBeCloseTo(12 - 2000 / 6400, 9);
    expect(Math.abs(values.total / whole.total - 1)).toBeLessThan(0.005);
  });
});

it('a recording of less than a second in pieces has what its pieces have', async () => {
  const axes = { x: sum(ROTARY) };
  const values = await measured({ rateHz: 6400, seconds: 0.3, axes, gaps: [960] });
  expect([values.durationS, values.greatestSecond]).toEqual([0.3, null]);
});

it('a recording without a sample has no value', async () => {
  expect(await measure(madeRecording({ rateHz: 6400, seconds: 0, axes: {} }))).toBeNull();
});

/** Lines of one size and chance phase from 5.62 to 1413 Hz, and nothing outside; it comes again every 131 072 samples. */
function confinedNoise(rateHz: number, seed: number): (s: number, at: number) => number {
  const random = RandomStream.named(seed, 'noise');
  const size = 131_072;
  const fft = new FFT(size);
  const [lines, noise] = [fft.createComplexArray(), fft.createComplexArray()];
  for (let line = Math.ceil((10 ** 0.75 * size) / rateHz); line * (rateHz / size) < 10 ** 3.15; line++) {
    const phase = (2 * Math.PI * random.within(0, 9999)) / 10_000;
    lines[2 * line] = 1000 * Math.cos(phase);
    lines[2 * line + 1] = 1000 * Math.sin(phase);
  }
  fft.inverseTransform(noise, lines);
  return (_, at) => noise[2 * (at % size)]!;
}
