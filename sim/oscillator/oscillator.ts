// What a device takes for the time: an oscillator that runs a little fast or slow, so that the device's ms are not the
// world's. In nanoseconds every sum here is exact, so neither days nor changes of the rate add an error of their own.

/** CLK-1: ±2 % is the worst fault that a device promises to survive. */
export const MAX_PPM = 20_000;

const NS_PER_MS = 1_000_000;

/** Plain data. At worldMs the local clock stood at localNs; since then it gains ppm µs in each second of the world. */
export interface OscillatorState {
  readonly worldMs: number;
  readonly localNs: number;
  /** -MAX_PPM..MAX_PPM, positive where it runs fast. */
  readonly ppm: number;
}

/** An oscillator that is right, started when the world was: local time is the world's. */
export const TRUE_OSCILLATOR: OscillatorState = { worldMs: 0, localNs: 0, ppm: 0 };

/** Whole ms that the local clock shows at worldMs. Throws for a time before the last change, and past about 100 days. */
export function localMs(state: OscillatorState, worldMs: number): number {
  return quotient(localNsAt(state, worldMs), NS_PER_MS);
}

/**
 * The first ms of the world at which the local clock shows localMs or has passed it, which a fast one may do without ever
 * showing it; the time of the last change where that was so already. Infinity for Infinity, as a deadline that is not armed.
 */
export function worldMs(state: OscillatorState, localMs: number): number {
  if (localMs === Infinity) return Infinity;
  const toGoNs = exact(localMs * NS_PER_MS) - state.localNs;
  if (toGoNs <= 0) return state.worldMs;
  const rate = NS_PER_MS + state.ppm;
  return state.worldMs + quotient(toGoNs + rate - 1, rate);
}

/**
 * From worldMs on it runs at ppm, a whole number, held within ±MAX_PPM: a drift that goes on for hours stays a fault that
 * can be survived. Deadlines planned with the old state must be planned again.
 */
export function setRate(state: OscillatorState, worldMs: number, ppm: number): OscillatorState {
  return { worldMs, localNs: localNsAt(state, worldMs), ppm: Math.max(-MAX_PPM, Math.min(exact(ppm), MAX_PPM)) };
}

/** The device boots at worldMs: its clock begins at 0, and runs as fast as it did. */
export function restart({ ppm }: OscillatorState, worldMs: number): OscillatorState {
  return { worldMs, localNs: 0, ppm };
}

function localNsAt({ worldMs: sinceMs, localNs, ppm }: OscillatorState, worldMs: number): number {
  if (worldMs < sinceMs) throw new Error(`the oscillator was changed at ${sinceMs} ms, later than ${worldMs}`);
  return exact(localNs + (worldMs - sinceMs) * (NS_PER_MS + ppm));
}

/** Rounded down; both positive or 0. Exact, where a / b might be rounded up to the next whole number. */
function quotient(a: number, b: number): number {
  return (a - (a % b)) / b;
}

function exact(value: number): number {
  if (!Number.isSafeInteger(value)) throw new Error(`${value} is no whole number that can be counted on`);
  return value;
}
