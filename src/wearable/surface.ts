// The wearable's panel: one surface to tap. This table maps the physical gesture to the logical input; another panel needs
// another table, nothing else.
import type { Gesture } from '../port/gesture.js';

/** Held for 3 s the surface closes the shift (WEA-3). */
export const SURFACE_TOUCHES: readonly Gesture<'tap' | 'close'>[] = [
  { fromMs: 0, belowMs: 3000, input: 'tap', madeAfterMs: 'release' },
  { fromMs: 3000, belowMs: Infinity, input: 'close', madeAfterMs: 3000 },
];
