// The counter's panel: one ring that turns in detents and can be pushed, and a place to touch a wearable with. This table maps
// the physical gestures to the logical inputs that the statechart takes; another panel needs another table, nothing else.

export interface RingPress {
  /** The ring is held down for at least … and for less than … ms. */
  readonly fromMs: number;
  readonly belowMs: number;
  readonly input: 'push' | 'hold';
  /** When the input is made: on the release, or while the ring is still down, this long after it went down. */
  readonly madeAfterMs: number | 'release';
}

/** MAG-2: held for 2 s it opens setting, and the release does nothing more. */
export const RING_PRESSES: readonly RingPress[] = [
  { fromMs: 0, belowMs: 2000, input: 'push', madeAfterMs: 'release' },
  { fromMs: 2000, belowMs: Infinity, input: 'hold', madeAfterMs: 2000 },
];

/** The input that a press of forMs makes, and how long after the ring went down. */
export function ringPress(forMs: number): { readonly input: 'push' | 'hold'; readonly afterMs: number } {
  const row = RING_PRESSES.find((press) => forMs >= press.fromMs && forMs < press.belowMs);
  if (row === undefined) throw new Error(`the ring cannot be pressed for ${forMs} ms`);
  return { input: row.input, afterMs: row.madeAfterMs === 'release' ? forMs : row.madeAfterMs };
}
