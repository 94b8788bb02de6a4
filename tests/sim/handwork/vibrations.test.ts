import { describe, expect, it } from 'vitest';
import { acceleration, type Motion } from '../../../sim/handwork/acceleration.js';
import { FrontEnd } from '../../../sim/handwork/front-end.js';
import { CHARACTERS } from '../../../sim/handwork/levels.js';
import { VIBRATIONS, type VibrationName } from '../../../sim/handwork/vibrations.js';

const SENSOR = { seed: 7, name: 'tool' };
const FULL = { fromMs: 500, untilMs: 12_500 };

function levelsOf(vibration: VibrationName, toMs: number): number[] {
  const frontEnd = new FrontEnd();
  const motions = [{ vibration, ...FULL }];
  return Array.from({ length: toMs / 100 }, (_, window) =>
    frontEnd.level(acceleration(SENSOR, motions, window * 100, window * 100 + 100)),
  );
}

function rms(levels: readonly number[]): number {
  return Math.sqrt(levels.reduce((sum, level) => sum + level * level, 0) / levels.length);
}

describe('VIBRATIONS', () => {
  it.each(['rotary', 'percussive', 'impact'] as const)('%s is of the size that days count by', (name) => {
    const ratio = rms(levelsOf(name, 12_000).slice(10)) / CHARACTERS[name].runningMm;
    expect(ratio).toBeGreaterThan(0.9);
    expect(ratio).toBeLessThan(1.1);
  });

  it('are at rest before and after, at the level of the sensor', () => {
    for (const name of Object.keys(VIBRATIONS) as VibrationName[]) {
      const levels = levelsOf(name, 14_000);
      for (const level of [...levels.slice(1, 5), ...levels.slice(129)]) {
        expect(level, name).toBeGreaterThan(40);
        expect(level, name).toBeLessThan(110);
      }
    }
  });

  it('tell a single shot from blows without a pause', () => {
    const loud = (name: VibrationName) =>
      levelsOf(name, 12_500)
        .slice(5)
        .filter((level) => level >= 1000).length;
    expect(loud('impact')).toBe(120);
    expect(loud('shots')).toBe(12);
  });
});

describe('acceleration', () => {
  const BURST: Motion = { vibration: 'rotary', fromMs: 333, untilMs: 2777 };

  it('gives any span by itself as it gives it within a longer one', () => {
    const whole = acceleration(SENSOR, [BURST], 0, 3000);
    for (const [from, to] of [
      [0, 1],
      [330, 340],
      [1000, 1100],
      [2700, 2800],
    ] as const) {
      expect(acceleration(SENSOR, [BURST], from, to)).toEqual(whole.slice(from * 8, to * 8));
    }
  });

  it('sounds the same up to its spinning down, whenever that comes', () => {
    const longer = { ...BURST, untilMs: 5000 };
    expect(acceleration(SENSOR, [longer], 0, 2690)).toEqual(acceleration(SENSOR, [BURST], 0, 2690));
  });

  it('starts and stops smoothly, never with a step of more than the full swing takes', () => {
    const samples = acceleration(SENSOR, [BURST], 0, 3000);
    const steps = samples.slice(1).map((value, at) => Math.abs(value - samples[at]!));
    const greatest = Math.max(...steps);
    for (const from of [333 * 8, 2770 * 8]) {
      expect(Math.max(...steps.slice(from, from + 50))).toBeLessThan(greatest / 10);
    }
  });

  it('differs by seed, by sensor and by the moment at which a motion begins', () => {
    const of = (seed: number, name: string, fromMs: number) =>
      acceleration({ seed, name }, [{ ...BURST, fromMs }], fromMs + 200, fromMs + 201).join();
    expect(new Set([of(7, 'tool', 333), of(8, 'tool', 333), of(7, 'saw', 333), of(7, 'tool', 334)]).size).toBe(4);
  });
});
