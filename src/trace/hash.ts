// Two SHA-256 hashes of a trace: of its whole canonical text, so that `sha256sum` of the NDJSON file gives the same, and
// of the outward text, on which model and firmware must agree.
import { createHash } from 'node:crypto';
import { linesOf } from './canonical.js';
import type { TraceEvent } from './kinds.js';

/** Lines gathered before they are handed to the hash in one piece. */
const LINES_A_PIECE = 256;

export interface TraceHashes {
  /** 64 hexadecimal digits each. */
  readonly whole: string;
  readonly outward: string;
}

export class TraceHash {
  private readonly whole = createHash('sha256');
  private readonly outward = createHash('sha256');
  private wholeText = '';
  private outwardText = '';
  private lines = 0;

  see(event: TraceEvent): void {
    const { whole, outward } = linesOf(event);
    this.wholeText += `${whole}\n`;
    if (outward !== '') this.outwardText += `${outward}\n`;
    if (++this.lines % LINES_A_PIECE === 0) this.flush();
  }

  /** Ends the hash; nothing may be seen afterwards. */
  digest(): TraceHashes {
    this.flush();
    return { whole: this.whole.digest('hex'), outward: this.outward.digest('hex') };
  }

  private flush(): void {
    this.whole.update(this.wholeText);
    this.outward.update(this.outwardText);
    this.wholeText = '';
    this.outwardText = '';
  }
}

export function hashTrace(events: Iterable<TraceEvent>): TraceHashes {
  const hash = new TraceHash();
  for (const event of events) hash.see(event);
  return hash.digest();
}
