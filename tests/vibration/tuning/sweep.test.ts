// A breaker that is used on a site, and driven to the next one: with the levels of TRG-1 the drive is counted, and a sweep finds
// levels between the two.
import { beforeAll, describe, expect, it } from 'vitest';
import { DETECTOR_DEFAULTS } from '../../../src/counter/detector.js';
import { windowLevels } from '../../../src/vibration/tuning/levels.js';
import type { Mark } from '../../../src/vibration/tuning/marks.js';
import { sweepPicture } from '../../../src/vibration/tuning/picture.js';
import { GRID, type Sweep, sweep, tryOut, wrongMs } from '../../../src/vibration/tuning/sweep.js';
import { burstsOf, recordingOf } from '../../rig/handwork.js';

let levels: readonly number[];
let marks: readonly Mark[];
let found: Sweep;

beforeAll(async () => {
  const work = burstsOf('percussive', 12, [1000, 6000], [600, 4000]);
  const fromMs = work.at(-1)!.untilMs + 5000;
  const drive = { vibration: 'carried', fromMs, untilMs: fromMs + 120_000 } as const;
  const made = recordingOf({ seed: 1, name: 'tool' }, [...work, drive]);
  levels = (await windowLevels(made.recording))!.levels;
  marks = made.marks;
  found = sweep(levels, marks);
}, 60_000);

describe('sweep', () => {
  it('finds what tells the work from the drive', () => {
    expect(found.byDefault.settings).toEqual(DETECTOR_DEFAULTS);
    expect(found.byDefault.error.falseBursts).toBeGreaterThan(5);
    expect(found.byDefault.error.falseMs).toBeGreaterThan(10_000);
    expect(found.best.error).toMatchObject({ falseBursts: 0, missedBursts: 0 });
    expect(wrongMs(found.best.error)).toBeLessThan(2 * 100 * marks.length);
    expect(found.best.settings.onLevelMm).toBeGreaterThan(DETECTOR_DEFAULTS.onLevelMm);
  });

  it('tries every combination, in order, and none is better', () => {
    const pairs = GRID.onLevelsMm.flatMap((on) => GRID.offLevelsMm.filter((off) => off <= on)).length;
    expect(found.tried).toHaveLength(pairs * GRID.startAfter.length * GRID.stopAfter.length);
    expect(Math.min(...found.tried.map(({ error }) => wrongMs(error)))).toBe(wrongMs(found.best.error));
    expect(sweep(levels, marks)).toEqual(found);
    expect(found.tried[0]!.settings).toEqual({ onLevelMm: 400, offLevelMm: 200, startAfter: 1, stopAfter: 2 });
  });

  it('changes nothing for nothing: of equals it takes the one nearest to the defaults', () => {
    const quiet = Array.from({ length: 100 }, (_, window) => (window >= 20 && window < 50 ? 50_000 : 0));
    expect(sweep(quiet, [{ startS: 2, stopS: 5 }]).best).toEqual(
      tryOut(quiet, [{ startS: 2, stopS: 5 }], DETECTOR_DEFAULTS),
    );
  });

  it('throws where there is nothing to try, or too much', () => {
    const none = { ...GRID, onLevelsMm: [100] };
    expect(() => sweep(levels, marks, none)).toThrow('no combination');
    const long = { length: 10_000_000 } as unknown as readonly number[];
    expect(() => sweep(long, marks)).toThrow('too many to try');
  });
});

describe('sweepPicture', () => {
  it('has a title, both axes of both fields, and a number in every cell that it shows', () => {
    const picture = sweepPicture('lock <wall> & "sill"', found);
    expect(picture).toContain('<title>Seconds wrongly counted or missed in lock &lt;wall&gt; &amp; &quot;sill&quot;');
    for (const text of ['on level, m/s²', 'off level, m/s²', 'start after, windows', 'stop after, windows']) {
      expect(picture).toContain(`>${text}</text>`);
    }
    const pairs = GRID.onLevelsMm.flatMap((on) => GRID.offLevelsMm.filter((off) => off <= on)).length;
    const cells = pairs + GRID.startAfter.length * GRID.stopAfter.length;
    expect(picture.match(/fill="rgb/g)).toHaveLength(cells);
    expect(picture.match(/font-size="17"/g)).toHaveLength(cells);
    expect(picture.match(/stroke-width="6"/g)).toHaveLength(2);
  });

  it('is within its frame and has no text below 17 px', () => {
    const picture = sweepPicture('made', found);
    for (const [, size] of picture.matchAll(/font-size="(\d+)"/g)) expect(Number(size)).toBeGreaterThanOrEqual(17);
    for (const [, x] of picture.matchAll(/ x="(-?[\d.]+)"/g)) expect(Number(x)).toBeLessThan(1280);
    for (const [, y] of picture.matchAll(/ y="(-?[\d.]+)"/g)) expect(Number(y)).toBeLessThan(720);
    expect(picture).not.toMatch(/NaN|undefined|null|Infinity/);
  });
});
