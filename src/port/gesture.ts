// A panel's physical gestures and the logical inputs that they make, as a table; how long a thing is pressed decides.

export interface Gesture<Input extends string> {
  /** It is pressed for at least … and for less than … ms. */
  readonly fromMs: number;
  readonly belowMs: number;
  readonly input: Input;
  /** When the input is made: on the release, or while it is still pressed, this long after it went down. */
  readonly madeAfterMs: number | 'release';
}

/** The input that a press of forMs makes, and how long after it went down. Throws where the table has no row for it. */
export function inputOf<Input extends string>(
  table: readonly Gesture<Input>[],
  forMs: number,
): { readonly input: Input; readonly afterMs: number } {
  const row = table.find(({ fromMs, belowMs }) => forMs >= fromMs && forMs < belowMs);
  if (row === undefined) throw new Error(`nothing can be pressed for ${forMs} ms`);
  return { input: row.input, afterMs: row.madeAfterMs === 'release' ? forMs : row.madeAfterMs };
}

/** The shortest press, in ms, that makes an input. Throws where none does. */
export function shortestFor<Input extends string>(table: readonly Gesture<Input>[], input: Input): number {
  const presses = table.filter((row) => row.input === input).map(({ fromMs }) => fromMs);
  if (presses.length === 0) throw new Error(`no press makes ${input}`);
  return Math.min(...presses);
}
