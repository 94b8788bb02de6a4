import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  localMs,
  MAX_PPM,
  type OscillatorState,
  restart,
  setRate,
  TRUE_OSCILLATOR,
  worldMs,
} from '../../../sim/oscillator/oscillator.js';

const FORTNIGHT_MS = 14 * 24 * 3_600_000;
const PPM = fc.integer({ min: -MAX_PPM, max: MAX_PPM });
const TIME_MS = fc.integer({ min: 0, max: FORTNIGHT_MS });
const CHANGES = fc.array(fc.record({ afterMs: fc.nat(FORTNIGHT_MS / 20), ppm: PPM }), { maxLength: 20 });

/** An oscillator that has been changed a few times. */
const OSCILLATOR: fc.Arbitrary<OscillatorState> = CHANGES.map((changes) =>
  changes.reduce((state, { afterMs, ppm }) => setRate(state, state.worldMs + afterMs, ppm), TRUE_OSCILLATOR),
);

describe('an oscillator', () => {
  it('that is right shows the time of the world, to the ms', () => {
    fc.assert(
      fc.property(TIME_MS, TIME_MS, (atMs, changedMs) => {
        expect(localMs(TRUE_OSCILLATOR, atMs)).toBe(atMs);
        expect(worldMs(TRUE_OSCILLATOR, atMs)).toBe(atMs);
        const told = setRate(TRUE_OSCILLATOR, changedMs, 0);
        expect(localMs(told, changedMs + atMs)).toBe(changedMs + atMs);
      }),
    );
  });

  // Derived: 28 800 s · 500 ppm = 14.4 s, 28 800 s · 2 % = 576 s (CLK-1).
  it.each([
    [500, 14_400],
    [-500, -14_400],
    [20_000, 576_000],
    [-20_000, -576_000],
    [1, 28],
    [-1, -29],
  ])('at %i ppm is off by %i ms after 8 h', (ppm, offMs) => {
    expect(localMs(setRate(TRUE_OSCILLATOR, 0, ppm), 28_800_000)).toBe(28_800_000 + offMs);
  });

  it('never goes back, and is off by no more than its rate', () => {
    fc.assert(
      fc.property(OSCILLATOR, fc.nat(FORTNIGHT_MS), fc.nat(1000), (state, laterMs, stepMs) => {
        const atMs = state.worldMs + laterMs;
        const passedMs = localMs(state, atMs + stepMs) - localMs(state, atMs);
        expect(passedMs).toBeGreaterThanOrEqual(0);
        expect(Math.abs(passedMs * 1000 - stepMs * 1000)).toBeLessThan((stepMs * Math.abs(state.ppm)) / 1000 + 1000);
      }),
    );
  });

  it('comes to a local time in the first ms that shows it or has passed it', () => {
    fc.assert(
      fc.property(OSCILLATOR, fc.nat(FORTNIGHT_MS), (state, laterMs) => {
        const wantedMs = localMs(state, state.worldMs) + 1 + laterMs;
        const atMs = worldMs(state, wantedMs);
        expect(localMs(state, atMs)).toBeGreaterThanOrEqual(wantedMs);
        expect(localMs(state, atMs - 1)).toBeLessThan(wantedMs);
      }),
    );
  });

  it('has come to what it shows no later than now, and to what is past at its last change', () => {
    fc.assert(
      fc.property(OSCILLATOR, fc.nat(FORTNIGHT_MS), (state, laterMs) => {
        const atMs = state.worldMs + laterMs;
        expect(worldMs(state, localMs(state, atMs))).toBeLessThanOrEqual(atMs);
        expect(worldMs(state, localMs(state, state.worldMs))).toBe(state.worldMs);
        expect(worldMs(state, 0)).toBe(state.worldMs);
      }),
    );
  });

  it('never comes to a deadline that is not armed', () => {
    expect(worldMs(setRate(TRUE_OSCILLATOR, 5, 300), Infinity)).toBe(Infinity);
  });

  it('loses nothing by being told a rate that it has', () => {
    fc.assert(
      fc.property(OSCILLATOR, CHANGES, fc.nat(FORTNIGHT_MS), (state, changes, laterMs) => {
        const told = changes.reduce((old, { afterMs }) => setRate(old, old.worldMs + afterMs, old.ppm), state);
        expect(localMs(told, told.worldMs + laterMs)).toBe(localMs(state, told.worldMs + laterMs));
      }),
    );
  });

  it('adds up what it gained at each rate', () => {
    // 1 h at +1000 ppm, 1 h at -400 ppm: 3.6 s gained, 1.44 s lost.
    const state = setRate(setRate(TRUE_OSCILLATOR, 0, 1000), 3_600_000, -400);
    expect(localMs(state, 3_600_000)).toBe(3_603_600);
    expect(localMs(state, 7_200_000)).toBe(7_202_160);
  });

  it('drifts to the rates that a device promises to survive and no further', () => {
    expect(setRate(TRUE_OSCILLATOR, 0, 20_001).ppm).toBe(20_000);
    expect(setRate(TRUE_OSCILLATOR, 0, -34_000).ppm).toBe(-20_000);
  });

  it('begins at 0 with every start of the device, as fast as before', () => {
    fc.assert(
      fc.property(OSCILLATOR, TIME_MS, TIME_MS, (state, bootMs, laterMs) => {
        const started = restart(state, bootMs);
        expect(localMs(started, bootMs)).toBe(0);
        expect(localMs(started, bootMs + laterMs)).toBe(localMs(setRate(TRUE_OSCILLATOR, 0, state.ppm), laterMs));
      }),
    );
  });

  it('refuses times before its last change, times too long to count, and fractions', () => {
    const state = setRate(TRUE_OSCILLATOR, 1000, 10);
    expect(() => localMs(state, 999)).toThrow('changed at 1000 ms');
    expect(() => localMs(state, 2 ** 43)).toThrow('no whole number');
    expect(() => setRate(state, 2000, 0.5)).toThrow('no whole number');
  });
});
