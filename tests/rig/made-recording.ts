// A recording that is computed: an acceleration for each axis as a function of time, in blocks of any length.
import type { Block, Recording } from '../../src/vibration/recording/recording.js';
import type { Axis } from '../../src/vibration/weighting/filter.js';

export interface Made {
  readonly rateHz: number;
  readonly seconds: number;
  /** Acceleration in m/s² at a time in s; an axis that is not given is at rest. */
  readonly axes: Readonly<Partial<Record<Axis, (s: number, at: number) => number>>>;
  readonly blockFrames?: number;
  /** Frames before which a gap lies. */
  readonly gaps?: readonly number[];
}

export function madeRecording({ rateHz, seconds, axes, blockFrames = 10_007, gaps = [] }: Made): Recording {
  const frames = Math.round(seconds * rateHz);
  const still = () => 0;
  const { x = still, y = still, z = still } = axes;
  async function* blocks(): AsyncIterable<Block> {
    const ends = [...gaps, frames];
    let at = 0;
    for (const end of ends) {
      for (let begins = true; at < end; begins = false) {
        const length = Math.min(blockFrames, end - at);
        const from = at;
        const filled = (of: (s: number, at: number) => number) =>
          Float64Array.from({ length }, (_, index) => of((from + index) / rateHz, from + index));
        yield { samples: { x: filled(x), y: filled(y), z: filled(z) }, length, begins };
        at += length;
      }
    }
  }
  return { name: 'made', rateHz, bytes: { read: 0, total: 0 }, blocks, findings: [] };
}
