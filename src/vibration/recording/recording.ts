// A recording of the acceleration at a tool's handle, as it is read: block after block, so that an hour needs no more memory than
// a second, and with all that was found wrong on the way.
import type { Samples } from '../weighting/filter.js';

/**
 * Something a person must know of a recording. refuses: no value can be trusted, none is given; doubts: a value is given, and no
 * setting is recommended from it; notes: for the record.
 */
export interface Finding {
  readonly weight: 'refuses' | 'doubts' | 'notes';
  /** One of a closed list of words, for programs. */
  readonly what: string;
  /** A sentence that says where and what to do. */
  readonly says: string;
}

/** Samples that follow each other without a gap; the arrays are used again for the next block. */
export interface Block {
  readonly samples: Samples;
  readonly length: number;
  /** The first sample of a new contiguous stretch: the first block of all, and each that comes after a gap. */
  readonly begins: boolean;
}

export interface Recording {
  readonly name: string;
  readonly rateHz: number;
  /** Bytes read so far, and in all, for progress. */
  readonly bytes: { readonly read: number; readonly total: number };
  /** Reads it from the start; may be called again once it has ended. */
  blocks(): AsyncIterable<Block>;
  /** What was found up to now; complete once blocks() has ended, and the same each time. */
  readonly findings: readonly Finding[];
}
