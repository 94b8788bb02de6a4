import { describe, expect, it } from 'vitest';
import { windowLevels } from '../../../src/vibration/tuning/levels.js';
import { burstsOf, levelsOf, recordingOf } from '../../rig/handwork.js';
import { madeRecording } from '../../rig/made-recording.js';

const tone = (amplitude: number) => (s: number) => amplitude * Math.sin(2 * Math.PI * 100 * s);

describe('windowLevels', () => {
  it.each([3200, 8000, 11_025, 25_600])(
    'adds the axes by their energies, and hears no gravity, at %i Hz',
    async (rateHz) => {
      const axes = { x: tone(3), y: tone(4), z: (s: number) => 9.81 + tone(12)(s) };
      const found = await windowLevels(madeRecording({ rateHz, seconds: 2.05, axes }));
      // √(3² + 4² + 12²) / √2 = 13 / √2 m/s²
      expect(found?.levels).toHaveLength(20);
      for (const level of found!.levels.slice(1))
        expect(Math.abs(level / (13_000 / Math.SQRT2) - 1)).toBeLessThan(0.01);
      const still = await windowLevels(madeRecording({ rateHz, seconds: 1, axes: { z: () => 9.81 } }));
      expect(still?.levels).toEqual(Array.from({ length: 10 }, () => 0));
    },
  );

  it('reads what the front end of a counter reads of the same samples, within 3 %', async () => {
    const bursts = burstsOf('percussive', 3, [500, 2000], [600, 1500]);
    const sensor = { seed: 7, name: 'tool' };
    const { recording } = recordingOf(sensor, bursts);
    const [ours, frontEnd] = [(await windowLevels(recording))!.levels, levelsOf(sensor, bursts)];
    for (const [window, level] of frontEnd.entries()) {
      expect(Math.abs(ours[window]! - level), `window ${window}`).toBeLessThanOrEqual(0.03 * level + 5);
    }
  });

  it('reads up to the first gap, and says so', async () => {
    const made = madeRecording({ rateHz: 8000, seconds: 3, axes: { x: tone(3) }, gaps: [12_000] });
    const found = await windowLevels(made);
    expect(found?.levels).toHaveLength(15);
    expect(found?.findings.map(({ what, says }) => `${what}: ${says}`)).toEqual([
      'gap-ends-levels: there is a gap at 1.5 s: what comes after it is not used',
    ]);
  });

  it('gives nothing where a finding refuses a value, or there are no samples', async () => {
    const made = madeRecording({ rateHz: 8000, seconds: 1, axes: {} });
    const refused = {
      ...made,
      findings: [{ weight: 'refuses', what: 'not-a-number', says: 'line 7 is none' }] as const,
    };
    expect(await windowLevels(refused)).toBeNull();
    expect(await windowLevels(madeRecording({ rateHz: 8000, seconds: 0, axes: {} }))).toBeNull();
  });
});
