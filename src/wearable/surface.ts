// The wearable's panel: one surface to tap. This table maps the physical gesture to the logical input; another panel needs
// another table, nothing else.

export interface SurfaceTouch {
  /** The surface is touched for at least … and for less than … ms. */
  readonly fromMs: number;
  readonly belowMs: number;
  readonly input: 'tap' | 'close';
  readonly madeAfterMs: number | 'release';
}

/** Held for 3 s it closes the shift (WEA-3). */
export const SURFACE_TOUCHES: readonly SurfaceTouch[] = [
  { fromMs: 0, belowMs: 3000, input: 'tap', madeAfterMs: 'release' },
  { fromMs: 3000, belowMs: Infinity, input: 'close', madeAfterMs: 3000 },
];

/** The input that a touch of forMs makes, and how long after the finger came down. */
export function surfaceTouch(forMs: number): { readonly input: 'tap' | 'close'; readonly afterMs: number } {
  const row = SURFACE_TOUCHES.find((touch) => forMs >= touch.fromMs && forMs < touch.belowMs);
  if (row === undefined) throw new Error(`the surface cannot be touched for ${forMs} ms`);
  return { input: row.input, afterMs: row.madeAfterMs === 'release' ? forMs : row.madeAfterMs };
}
