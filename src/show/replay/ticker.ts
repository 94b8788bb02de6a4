// Time as the player gets it: a ticker calls back with the ms that have passed since its last call, until it is stopped.

/** Starts the ticking and returns what stops it. */
export type Ticker = (tick: (elapsedMs: number) => void) => () => void;

/** Frames a second are few enough for a slow line and enough for the eye to follow a bar that grows. */
const FRAME_MS = 100;

/** Real time; the only place of the replay that knows it. */
export const realTicker: Ticker = (tick) => {
  let lastMs = performance.now();
  const timer = setInterval(() => {
    const nowMs = performance.now();
    tick(nowMs - lastMs);
    lastMs = nowMs;
  }, FRAME_MS);
  return () => clearInterval(timer);
};
