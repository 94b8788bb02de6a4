// Two SHA-256 hashes of a trace: of its whole canonical text, so that `sha256sum` of the NDJSON file gives the same, and
// of the outward text, on which model and firmware must agree.
import { createHash } from 'node:crypto';
import type { TraceEvent } from './kinds.js';
import { LineWriter } from './line-writer.js';

/** Bytes gathered before they are handed to the hash in one piece. */
const PIECE_BYTES = 65_536;

export interface TraceHashes {
  /** 64 hexadecimal digits each. */
  readonly whole: string;
  readonly outward: string;
}

export class TraceHash {
  private readonly whole = createHash('sha256');
  private readonly outward = createHash('sha256');
  private readonly writer = new LineWriter(PIECE_BYTES);

  see(event: TraceEvent): void {
    this.writer.write(event);
    if (this.writer.full) this.flush();
  }

  /** Ends the hash; nothing may be seen afterwards. */
  digest(): TraceHashes {
    this.flush();
    return { whole: this.whole.digest('hex'), outward: this.outward.digest('hex') };
  }

  private flush(): void {
    const { whole, outward } = this.writer.take();
    this.whole.update(whole);
    this.outward.update(outward);
  }
}

export function hashTrace(events: Iterable<TraceEvent>): TraceHashes {
  const hash = new TraceHash();
  for (const event of events) hash.see(event);
  return hash.digest();
}
