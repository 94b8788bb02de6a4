// Hands the replay to ink.
import { type Instance, render } from 'ink';
import { Replay } from './Replay.js';
import type { Reel } from './reel.js';
import type { Ticker } from './ticker.js';

export function mount(reel: Reel, ticker: Ticker, stdin: NodeJS.ReadStream, stdout: NodeJS.WriteStream): Instance {
  return render(<Replay reel={reel} ticker={ticker} />, {
    stdin,
    stdout,
    // Nothing here writes to the console, so ink need not watch over it.
    patchConsole: false,
    onRender: forgetMeasures,
  });
}

/** React's development build notes over a hundred measures for each frame; kept, they fill the memory within minutes. */
function forgetMeasures(): void {
  performance.clearMeasures();
}
