// What a flash holds, found by reading alone: nothing is written, so power may fail here as it likes.
import { FLASH, type Flash } from '../port/flash.js';
import { isMarked, MARK, PAGE_HEADER_BYTES, placeOf, RecordReader, sequenceAt } from './layout.js';
import { NOTE_KEY, readNote } from './note.js';
import { BLANK, has, NO_PAGE, type Pages, READY, WASTE } from './pages.js';

/** What is kept under a key, and on which page. Never changed once made, so that forks may share it. */
export interface Kept {
  readonly value: Uint8Array;
  readonly page: number;
}

export interface Recovered {
  readonly pages: Pages;
  /** Offset in the head page at which to write on. */
  readonly end: number;
  readonly kept: Map<number, Kept>;
  /** Whole records that were read. */
  readonly replayed: number;
  /** Torn records and garbage that were skipped; what is on a page is met again until the page is erased. */
  readonly torn: number;
}

/** Reads all pages and replays their records in the order in which they were written. */
export function recover(flash: Flash): Recovered {
  const bytes = flash.read(0, FLASH.pages * FLASH.pageBytes);
  const is = Array.from({ length: FLASH.pages }, (_, page) => stateOf(bytes, page * FLASH.pageBytes));
  const written = is.flatMap((state, page) => (state > 0 ? [page] : [])).sort((a, b) => is[a]! - is[b]!);
  const whole = new Replay(bytes, is, written);
  const note = readNote(whole.valueOf(NOTE_KEY));
  const trusted = written.filter((page) => !has(note.retired, page));
  // A retired page still holds what it held: read again without it. The note itself is on a page that is not retired.
  const replay = trusted.length < written.length ? new Replay(bytes, is, trusted) : whole;
  return {
    pages: { is, head: trusted.at(-1) ?? NO_PAGE, ...note },
    end: replay.end,
    kept: replay.kept(),
    replayed: replay.replayed,
    torn: replay.torn,
  };
}

function stateOf(bytes: Uint8Array, start: number): number {
  const sequence = sequenceAt(bytes, start);
  if (sequence > 0) return sequence;
  const written = writtenBytes(bytes, start);
  if (written === 0) return BLANK;
  return written === MARK.length && isMarked(bytes, start) ? READY : WASTE;
}

/** Bytes of a page up to the last that is not blank. Most pages are blank at first, so whole words are looked at. */
function writtenBytes(bytes: Uint8Array, start: number): number {
  const words = new Int32Array(bytes.buffer, bytes.byteOffset + start, FLASH.pageBytes / FLASH.wordBytes);
  let blank = words.length;
  while (blank > 0 && words[blank - 1] === -1) blank -= 1;
  let end = start + blank * FLASH.wordBytes;
  while (end > start && bytes[end - 1] === 0xff) end -= 1;
  return end - start;
}

/** Reads pages, given from the oldest on. */
class Replay {
  replayed = 0;
  torn = 0;
  end = 0;
  private readonly reader = new RecordReader();
  /** Where the last value of each key begins, times 256, and its length. */
  private readonly places = new Map<number, number>();

  constructor(
    private readonly bytes: Uint8Array,
    private readonly is: readonly number[],
    pages: readonly number[],
  ) {
    for (const page of pages) this.end = this.page(page);
  }

  valueOf(key: number): Uint8Array | undefined {
    const place = this.places.get(key);
    return place === undefined ? undefined : this.bytes.slice(place >> 8, (place >> 8) + (place & 0xff));
  }

  kept(): Map<number, Kept> {
    const kept = new Map<number, Kept>();
    for (const [key, place] of this.places) {
      kept.set(key, { value: this.valueOf(key)!, page: Math.floor((place >> 8) / FLASH.pageBytes) });
    }
    return kept;
  }

  /**
   * Where a record's header is whole, its length is known, and it is passed over as one piece, torn or not: what lies in a torn
   * record is never taken for records. Otherwise a word at a time is skipped. Returns the offset behind the last of it.
   */
  private page(page: number): number {
    const start = page * FLASH.pageBytes;
    const first = placeOf(this.is[page]!, 0) - start;
    const end = start + FLASH.pageBytes;
    const written = start + writtenBytes(this.bytes, start);
    let at = start + PAGE_HEADER_BYTES;
    let skipping = false;
    while (at < written) {
      const found = this.reader.look(this.bytes, at, end, first + at);
      if (found === 'record') this.take();
      if (found === 'torn' || (found === 'none' && !skipping)) this.torn += 1;
      skipping = found === 'none';
      at += skipping ? FLASH.wordBytes : this.reader.size;
    }
    return at - start;
  }

  private take(): void {
    const { key, valueAt, valueBytes } = this.reader;
    this.replayed += 1;
    if (valueBytes === null) this.places.delete(key);
    else this.places.set(key, (valueAt << 8) | valueBytes);
  }
}
