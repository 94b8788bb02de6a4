// Shows a day in a terminal: the thin shell around the replay, with real streams and real time.
// Import it only when it is needed: ink alone takes 0.3 s to load.
import type { ShownDay } from '../shown-day.js';
import { mount } from './mount.js';
import { reelOf } from './reel.js';
import { enterScreen, type Life } from './screen.js';
import { realTicker, type Ticker } from './ticker.js';

/** What the replay runs on; the real thing where nothing else is given. */
export interface ReplayOptions {
  readonly stdin?: NodeJS.ReadStream;
  readonly stdout?: NodeJS.WriteStream;
  readonly ticker?: Ticker;
  readonly life?: Life;
}

/**
 * Replays a day until the person quits. stdout must be a terminal: elsewhere print plainTimeline instead.
 * Rejects with whatever went wrong while drawing, once the terminal is as it was.
 */
export async function replayInTerminal(day: ShownDay, options: ReplayOptions = {}): Promise<void> {
  const { stdin = process.stdin, stdout = process.stdout, ticker = realTicker, life = process } = options;
  const reel = reelOf(day);
  let unmount = () => {};
  const leave = enterScreen(stdout, life, () => unmount());
  try {
    const app = mount(reel, ticker, stdin, stdout);
    unmount = () => app.unmount();
    await app.waitUntilExit();
  } finally {
    leave();
  }
}
