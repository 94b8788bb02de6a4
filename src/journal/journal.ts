// A log-structured store of small records that outlasts power failures at any byte (KEP-1), wear (KEP-2) and bad pages
// (KEP-4). Both devices keep in it what they must not forget. README.md says how the bytes lie, and why they are safe.

import { FLASH, type Flash } from '../port/flash.js';
import { isSame } from './bytes.js';
import { crcRegister } from './crc32.js';
import {
  keyOf,
  MAX_RECORD_BYTES,
  MAX_SLOT,
  MAX_TYPE,
  MAX_VALUE_BYTES,
  PAGE_HEADER_BYTES,
  recordBytes,
} from './layout.js';
import { Log, READY_PAGES } from './log.js';
import { NOTE_KEY } from './note.js';
import { type Pages, usable } from './pages.js';

/**
 * What became of a change. Kept: it is in flash, and verified. Waiting: it is in RAM until settle(); what was kept before
 * still is. Failed: it is not taken, as failed() says, or as there is no room for so much.
 */
export type Outcome = 'kept' | 'waiting' | 'failed';

/** All that decides how a journal goes on. */
export interface Inside {
  readonly pages: Readonly<Pages>;
  readonly head: readonly unknown[];
  readonly kept: readonly unknown[];
  readonly waiting: readonly unknown[];
}

/** Bytes of a page that records fill for sure; at its end there may not be room for the next. */
const FILLED_BYTES = FLASH.pageBytes - PAGE_HEADER_BYTES - MAX_RECORD_BYTES;
/** Pages that what is live may not fill: the ready ones, and the head. */
const KEPT_FREE = READY_PAGES + 1;

/** Far more than a device changes in an erase, or before it falls asleep. */
const MOST_WAITING = 256;

interface Change {
  readonly key: number;
  readonly value: Uint8Array | null;
}

export class Journal {
  private constructor(
    private readonly flash: Flash,
    private readonly log: Log,
    /** Changes that wait, null a drop, in the order in which they were made. */
    private waiting: readonly Change[],
    /** Bytes of records that will be live once nothing waits. */
    private liveBytes: number,
    private held: boolean,
    private hasFailed: boolean,
  ) {}

  /** Recovers what the flash holds, by reading alone: it may be called below the safe voltage. Call settle() when above. */
  static open(flash: Flash): Journal {
    const log = Log.open(flash);
    let liveBytes = 0;
    for (const [key, { value }] of log.kept) if (key !== NOTE_KEY) liveBytes += recordBytes(value);
    return new Journal(flash, log, [], liveBytes, false, false);
  }

  /** A journal of its own that goes on from here on a copy of the flash. */
  fork(flash: Flash): Journal {
    const { log, waiting, liveBytes, held, hasFailed } = this;
    return new Journal(flash, log.fork(flash), waiting, liveBytes, held, hasFailed);
  }

  /**
   * Keeps a value of 0..248 bytes under type 0..254 and slot 0..255. One that is kept already is not written again. Where
   * anything waits it waits behind it, so that changes are kept in the order in which they were made (of changes of one key
   * that follow each other, only the last). Throws RangeError beyond those ranges.
   */
  put(type: number, slot: number, value: Uint8Array): Outcome {
    if (value.length > MAX_VALUE_BYTES) throw new RangeError(`a value has at most ${MAX_VALUE_BYTES} bytes`);
    return this.change(requireKey(type, slot), value);
  }

  /** Forgets what is kept under a key; nothing is written where that is nothing. As for put. */
  drop(type: number, slot: number): Outcome {
    return this.change(requireKey(type, slot), null);
  }

  /** A copy of what is kept in flash, or null; what waits is not kept yet. */
  get(type: number, slot: number): Uint8Array | null {
    return this.log.kept.get(requireKey(type, slot))?.value.slice() ?? null;
  }

  /** What is kept under a type, by slot. */
  entries(type: number): { readonly slot: number; readonly value: Uint8Array }[] {
    const found = [];
    for (const [key, { value }] of this.log.kept) {
      if (key >> 8 === type) found.push({ slot: key & 0xff, value: value.slice() });
    }
    return found.sort((one, other) => one.slot - other.slot);
  }

  /**
   * Goes on with what waits: to be called after opening, when an erase is over (FLASH.eraseMs after it began), and
   * does no harm at any other time. Says whether anything still waits.
   */
  settle(): Outcome {
    let written = 0;
    for (const { key, value } of this.waiting) {
      if (!this.isFree() || !this.write(key, value)) break;
      written += 1;
    }
    this.waiting = this.waiting.slice(written);
    this.isFree();
    return this.outcome();
  }

  /** True below the safe voltage (CEL-1): no operation starts, changes wait. An erase that goes on is not stopped. */
  hold(on: boolean): Outcome {
    this.held = on;
    return this.settle();
  }

  /** Nothing can be kept any more, for good; what is kept can still be read (KEP-4). */
  failed(): boolean {
    return this.hasFailed;
  }

  /** Records replayed and torn ones skipped when it was opened; pages retired, worn ones included. */
  counts(): { readonly replayed: number; readonly torn: number; readonly retired: number } {
    const { replayed, torn, pages } = this.log.inside;
    return { replayed, torn, retired: FLASH.pages - usable(pages) };
  }

  /** As plain data for a digest; values are there as their CRC. */
  inside(): Inside {
    const { kept, pages, end, erasing, noteDue, untidy } = this.log.inside;
    const waiting = this.waiting.map(({ key, value }) => [key, crcOf(value)]);
    return {
      pages,
      head: [end, erasing, noteDue, untidy],
      kept: [...kept].map(([key, { value, page }]) => [key, crcOf(value), page]),
      waiting: [waiting, this.held, this.hasFailed],
    };
  }

  private change(key: number, value: Uint8Array | null): Outcome {
    const last = this.waiting[this.waiting.length - 1];
    // Of two changes of a key that follow each other the earlier is as if it had never been made.
    const ahead = last?.key === key ? this.waiting.slice(0, -1) : this.waiting;
    const without = this.planned(ahead, key);
    const grows = liveBytesOf(value) - liveBytesOf(this.planned(this.waiting, key));
    if (without === null || value === null ? without === value : isSame(without, value)) {
      this.waiting = ahead;
      this.liveBytes += grows;
      return ahead.some((change) => change.key === key) ? this.outcome() : 'kept';
    }
    const isFull = ahead.length >= MOST_WAITING || (grows > 0 && this.liveBytes + grows > this.room());
    if (this.hasFailed || isFull) return 'failed';
    this.liveBytes += grows;
    const own = value?.slice() ?? null;
    if (this.waiting.length === 0 && this.isFree() && this.write(key, own)) return 'kept';
    const change = { key, value: own };
    this.waiting = [...ahead, change];
    this.settle();
    if (!this.waiting.includes(change)) return 'kept';
    if (!this.hasFailed) return 'waiting';
    this.waiting = this.waiting.slice(0, -1);
    this.liveBytes -= grows;
    return 'failed';
  }

  /** What a key will have once all of these changes are kept. */
  private planned(changes: readonly Change[], key: number): Uint8Array | null {
    const change = changes.findLast((one) => one.key === key);
    return change === undefined ? (this.log.kept.get(key)?.value ?? null) : change.value;
  }

  private outcome(): Outcome {
    if (this.hasFailed) return 'failed';
    return this.waiting.length > 0 ? 'waiting' : 'kept';
  }

  /** Whether a change may be written now. Pages are looked after first: a change never takes the room that moving needs. */
  private isFree(): boolean {
    if (this.held || this.hasFailed || this.flash.busy()) return false;
    this.log.finishErase();
    this.tidy();
    return !this.hasFailed && !this.flash.busy();
  }

  /** False where it must wait. */
  private write(key: number, value: Uint8Array | null): boolean {
    const written = this.log.append(key, value) === 'done';
    this.tidy();
    return written;
  }

  private tidy(): void {
    if (!this.log.tidy() || this.liveBytes > this.room()) this.hasFailed = true;
  }

  /** Bytes of live records with which pages can always be made ready. */
  private room(): number {
    return (usable(this.log.inside.pages) - KEPT_FREE) * FILLED_BYTES;
  }
}

function requireKey(type: number, slot: number): number {
  const isWithin = (value: number, most: number) => Number.isInteger(value) && value >= 0 && value <= most;
  if (isWithin(type, MAX_TYPE) && isWithin(slot, MAX_SLOT)) return keyOf(type, slot);
  throw new RangeError(`no key has type ${type} and slot ${slot}`);
}

function liveBytesOf(value: Uint8Array | null): number {
  return value === null ? 0 : recordBytes(value);
}

function crcOf(value: Uint8Array | null): number | null {
  return value === null ? null : crcRegister(~0, value, 0, value.length);
}
