// What the samples themselves tell: clipping, dead axes, too little, too low a rate; and what must not be taken for it.
import { describe, expect, it } from 'vitest';
import type { FullScale } from '../../../src/vibration/recording/axis-check.js';
import { rateFindings, SignalChecks } from '../../../src/vibration/recording/checks.js';
import { FINDINGS } from '../../../src/vibration/recording/findings.js';

const RATE_HZ = 10_000;
type Signal = (at: number) => number;

const lively: Signal = (at) => 20 * Math.sin(0.9 * at) + 7 * Math.sin(2.3 * at);

function check(x: Signal, { count = 20_000, fullScale = null as FullScale | null, y = lively, block = 1000 } = {}) {
  const checks = new SignalChecks(RATE_HZ, ['x', 'y', 'z'], fullScale);
  for (let from = 0; from < count; from += block) {
    const length = Math.min(block, count - from);
    const filled = (signal: Signal) => Float64Array.from({ length }, (_, at) => signal(from + at));
    checks.take({ samples: { x: filled(x), y: filled(y), z: filled(lively) }, length, begins: from === 0 });
  }
  checks.end();
  return checks.findings();
}

function whats(findings: ReturnType<typeof check>): string[] {
  for (const { what } of findings) expect(FINDINGS).toContain(what);
  return findings.map(({ weight, what }) => `${weight} ${what}`);
}

const stepped =
  (signal: Signal, step: number): Signal =>
  (at) =>
    step * Math.round(signal(at) / step);
const cut =
  (signal: Signal, level: number): Signal =>
  (at) =>
    Math.max(-level, Math.min(level, signal(at)));

describe('clipping', () => {
  it('is found at the greatest value seen, on either side, and told with its place', () => {
    const clipped = check(cut((at) => 30 * Math.sin(0.05 * at), 20));
    expect(whats(clipped)).toEqual(['doubts clipped']);
    expect(clipped[0]!.says).toContain(
      'Axis x is clipped: 3 or more samples in a row at 20 m/s², 160 times, the first 0.0015 s',
    );
    expect(whats(check((at) => Math.max(-20, 30 * Math.sin(0.05 * at))))).toEqual(['doubts clipped']);
  });

  it('does not depend on where blocks end', () => {
    const signal = cut((at) => 30 * Math.sin(0.05 * at), 20);
    expect(check(signal, { block: 1 })).toEqual(check(signal, { block: 20_000 }));
  });

  it('is not what a slow vibration looks like that is recorded in steps', () => {
    for (const step of [0.01, 0.05, 0.1, 0.3]) {
      expect(whats(check(stepped((at) => 12 * Math.sin(0.004 * at), step)))).toEqual([]);
    }
  });

  it('is not what a quiet tool looks like that moves by few steps', () => {
    expect(whats(check(stepped((at) => 0.02 * lively(at), 0.3)))).toEqual([]);
  });

  it('is not what a single greatest sample is, nor two in a row', () => {
    expect(whats(check((at) => (at === 700 ? 400 : lively(at))))).toEqual([]);
    expect(whats(check((at) => (at === 700 || at === 701 ? 400 : lively(at))))).toEqual([]);
  });

  it('at full scale needs no steep flank', () => {
    const fullScale = { low: -12, high: 12 - 12 / 32_768 };
    const wave = stepped((at) => 12.001 * Math.sin(0.004 * at), 12 / 32_768);
    const slow: Signal = (at) => Math.min(fullScale.high, wave(at));
    expect(whats(check(slow))).toEqual([]);
    expect(whats(check(slow, { fullScale }))).toEqual(['doubts clipped']);
    const low: Signal = (at) => Math.max(fullScale.low, wave(at));
    expect(whats(check(low, { fullScale }))).toEqual(['doubts clipped']);
  });
});

describe('an axis that never changes', () => {
  it('is doubted, and all of them are refused', () => {
    expect(whats(check(() => 9.81))).toEqual(['doubts axis-flat']);
    const checks = new SignalChecks(RATE_HZ, ['x'], null);
    const still = Float64Array.from({ length: 20_000 }, () => 0);
    checks.take({ samples: { x: still, y: still, z: still }, length: still.length, begins: true });
    expect(checks.findings()).toEqual([]);
    checks.end();
    expect(whats(checks.findings())).toEqual(['refuses axis-flat']);
  });
});

describe('the length', () => {
  it('of nothing is refused, of less than a second doubted', () => {
    expect(whats(check(lively, { count: 0 }))).toEqual(['refuses empty']);
    expect(whats(check(lively, { count: 9999 }))).toEqual(['doubts too-short']);
    expect(whats(check(lively, { count: 10_000 }))).toEqual([]);
  });
});

describe('the rate', () => {
  it.each([
    [1599, ['refuses rate-too-low'], '639.6 Hz'],
    [1600, ['doubts rate-low'], '640 Hz'],
    [3199, ['doubts rate-low'], '1280 Hz'],
    [3200, [], ''],
  ])('of %d Hz', (rateHz, due, usable) => {
    const findings = rateFindings(rateHz);
    expect(whats(findings)).toEqual(due);
    expect(findings.map(({ says }) => says).join()).toContain(usable);
  });
});
