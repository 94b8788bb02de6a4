// The counter's panel: one ring that turns in detents and can be pushed, and a place to touch a wearable with. This table maps
// the physical gestures to the logical inputs that the statechart takes; another panel needs another table, nothing else.
import type { Gesture } from '../port/gesture.js';

/** MAG-2: held for 2 s the ring opens setting, and the release does nothing more. */
export const RING_PRESSES: readonly Gesture<'push' | 'hold'>[] = [
  { fromMs: 0, belowMs: 2000, input: 'push', madeAfterMs: 'release' },
  { fromMs: 2000, belowMs: Infinity, input: 'hold', madeAfterMs: 2000 },
];
