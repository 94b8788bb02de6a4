import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHARACTERS } from '../../../sim/handwork/levels.js';
import { changeLevel, windowState } from '../../../sim/handwork/windows.js';

const WINDOW_MS = 100;
const UNTIL_MS = 3000;

interface Change {
  readonly atMs: number;
  readonly levelMm: number;
}

/** Reads every window as a counter's sensor would: the value in force when the window ends. */
function windowsOf(firstMm: number, changes: readonly Change[]): readonly number[] {
  const state = windowState(firstMm);
  const read: number[] = [];
  let value = firstMm;
  let next = 0;
  let partialEndsMs = Infinity;
  for (let atMs = 0; atMs <= UNTIL_MS; atMs++) {
    if (atMs > 0 && atMs % WINDOW_MS === 0) read.push(value);
    if (atMs === partialEndsMs) value = state.levelMm;
    for (; changes[next]?.atMs === atMs; next++) {
      const partial = changeLevel(state, atMs, changes[next]!.levelMm);
      value = partial?.readMm ?? state.levelMm;
      partialEndsMs = partial?.endsMs ?? Infinity;
    }
  }
  return read;
}

/** Energy of one window of the signal itself, ms by ms, (mm/s²)²·ms. */
function energyOf(firstMm: number, changes: readonly Change[], window: number): number {
  let energy = 0;
  for (let atMs = window * WINDOW_MS; atMs < (window + 1) * WINDOW_MS; atMs++) {
    const levelMm = changes.findLast((change) => change.atMs <= atMs)?.levelMm ?? firstMm;
    energy += levelMm * levelMm;
  }
  return energy;
}

const LEVEL = fc.oneof(fc.constantFrom(60, 80, 18_000, 65_000, 110_000), fc.nat(120_000));
const CHANGES = fc
  .array(fc.record({ atMs: fc.nat(UNTIL_MS - 1), levelMm: LEVEL }), { maxLength: 30 })
  .map((changes) => changes.sort((a, b) => a.atMs - b.atMs));

describe('changeLevel', () => {
  it('gives windows of the same energy as the signal, for starts and stops at any millisecond', () => {
    fc.assert(
      fc.property(LEVEL, CHANGES, (firstMm, changes) => {
        const read = windowsOf(firstMm, changes);
        expect(read).toHaveLength(UNTIL_MS / WINDOW_MS);
        for (const [window, readMm] of read.entries()) {
          // A window reads a whole number of mm/s²: the root of its mean energy, rounded.
          expect(readMm).toBe(Math.round(Math.sqrt(energyOf(firstMm, changes, window) / WINDOW_MS)));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('says nothing of a part where a change falls on the start of a window', () => {
    const state = windowState(60);
    expect(changeLevel(state, 700, 18_000)).toBeNull();
    expect(changeLevel(state, 750, 60)).toEqual({
      readMm: Math.round(Math.sqrt((18_000 ** 2 + 60 ** 2) / 2)),
      endsMs: 800,
    });
    expect(changeLevel(state, 800, 18_000)).toBeNull();
  });

  it('takes any number of changes within one window', () => {
    const state = windowState(0);
    changeLevel(state, 110, 1000);
    changeLevel(state, 120, 0);
    changeLevel(state, 130, 2000);
    expect(changeLevel(state, 140, 0)).toEqual({
      readMm: Math.round(Math.sqrt((10 * 1000 ** 2 + 10 * 2000 ** 2) / 100)),
      endsMs: 200,
    });
  });
});

describe('CHARACTERS', () => {
  it('keep rest below the off level and running above the on level of every counter (TRG-1: 0.6 and 1.0 m/s²)', () => {
    for (const { restingMm, runningMm } of Object.values(CHARACTERS)) {
      expect(restingMm).toBeLessThan(600);
      expect(runningMm).toBeGreaterThanOrEqual(1000);
    }
  });
});
