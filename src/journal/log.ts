// The log: appends records, opens pages, moves what is live off the oldest page and erases it. Every program is verified by
// reading it back. What it knows is what recovery would find, were power to fail at this instant.
import { FLASH, type Flash } from '../port/flash.js';
import { isSame } from './bytes.js';
import { MARK, MAX_RECORD_BYTES, PAGE_HEADER_BYTES, pageOpening, placeOf, recordBytes, writeRecord } from './layout.js';
import { NOTE_KEY, writeNote } from './note.js';
import { BLANK, has, NO_PAGE, nextPage, READY, readyRun, WASTE } from './pages.js';
import { type Kept, type Recovered, recover } from './recover.js';

/**
 * Pages that are ready before a change is written, so that any two may go bad at once: one that the change may open, one into
 * which what is live on the oldest page may run over, and two that may turn out bad.
 */
export const READY_PAGES = 4;

/** Refused: power has failed, or an erase goes on. Full: there is no room, and no page is ready. */
export type Appended = 'done' | 'refused' | 'full';

/** Plain data, but for the map. */
export interface LogState extends Recovered {
  /** Behind the last byte of the head page. */
  end: number;
  /** The page whose erase goes on or has not been verified yet, or NO_PAGE. */
  erasing: number;
  /** The note in flash does not say what is known. */
  noteDue: boolean;
  /** Fewer pages than READY_PAGES may be ready: look after them. */
  untidy: boolean;
}

/** Every page is retired, each with a note, and one is erased. */
const TIDY_ROUNDS = 2 * FLASH.pages + 1;
const BLANK_PAGE = new Uint8Array(FLASH.pageBytes).fill(0xff);
const STRUCK_OUT = new Uint8Array(PAGE_HEADER_BYTES);
const MARK_BYTES = MARK.length;

export class Log {
  private readonly record = new Uint8Array(MAX_RECORD_BYTES);

  private constructor(
    private readonly flash: Flash,
    private readonly state: LogState,
  ) {}

  /** Reads only. */
  static open(flash: Flash): Log {
    return new Log(flash, { ...recover(flash), erasing: NO_PAGE, noteDue: false, untidy: true });
  }

  /** A log of its own that goes on from here, on a copy of the flash. */
  fork(flash: Flash): Log {
    const { pages, kept } = this.state;
    return new Log(flash, { ...this.state, pages: { ...pages, is: [...pages.is] }, kept: new Map(kept) });
  }

  get inside(): Readonly<LogState> {
    return this.state;
  }

  get kept(): ReadonlyMap<number, Kept> {
    return this.state.kept;
  }

  /**
   * Writes a record, in another page where there is no room or the page turns out bad. value null: a drop. The value is kept
   * as it is given, not copied.
   */
  append(key: number, value: Uint8Array | null): Appended {
    const { state } = this;
    const size = recordBytes(value);
    for (let tried = 0; tried <= FLASH.pages; tried++) {
      if (state.pages.head === NO_PAGE || state.end + size > FLASH.pageBytes) {
        const opened = this.openPage();
        if (opened !== 'done') return opened;
      }
      const { pages, end } = state;
      writeRecord(this.record, key, value, placeOf(pages.is[pages.head]!, end));
      const written = this.program(pages.head * FLASH.pageBytes + end, this.record.subarray(0, size));
      if (written === 'refused') return 'refused';
      if (written === 'done') {
        state.end += size;
        if (value === null) state.kept.delete(key);
        else state.kept.set(key, { value, page: pages.head });
        return 'done';
      }
      this.wearOut(pages.head);
    }
    return 'full';
  }

  /** Looks at the page whose erase is over, where there is one. */
  finishErase(): void {
    const { state, flash } = this;
    const page = state.erasing;
    if (page === NO_PAGE || flash.busy()) return;
    const blank = isSame(flash.read(page * FLASH.pageBytes, FLASH.pageBytes), BLANK_PAGE);
    const marked = blank ? this.mark(page) : 'bad';
    if (marked === 'refused') return;
    state.erasing = NO_PAGE;
    if (marked === 'bad') this.retire(page);
  }

  /**
   * Makes pages ready until there are READY_PAGES, or an erase has begun. False where that cannot be done any more: what is
   * live on the oldest page has no room elsewhere, or no page is left.
   */
  tidy(): boolean {
    const { state } = this;
    if (state.pages.head === NO_PAGE) this.format();
    for (let round = 0; round < TIDY_ROUNDS && state.untidy; round++) {
      if (state.erasing !== NO_PAGE) return true;
      if (state.noteDue) {
        // Before the next page is erased: it may hold a drop of what a page still shows that is retired since.
        state.noteDue = false;
        const noted = this.append(NOTE_KEY, writeNote(state.pages));
        if (noted === 'done') continue;
        state.noteDue = true;
        return noted === 'refused';
      }
      const { ready, next } = readyRun(state.pages);
      if (ready >= READY_PAGES) state.untidy = false;
      else if (next === NO_PAGE) return false;
      else {
        const cleared = this.clear(next);
        if (cleared !== 'done') return cleared === 'refused';
      }
    }
    return true;
  }

  /** Moves what is live off a page and begins to erase it, or retires it. */
  private clear(page: number): Appended {
    const { pages, kept } = this.state;
    if (pages.is[page]! > 0) {
      for (const [key, { value, page: on }] of kept) {
        if (on !== page) continue;
        const moved = this.append(key, value);
        if (moved !== 'done') return moved;
      }
      const struck = has(pages.worn, page) ? 'bad' : this.program(page * FLASH.pageBytes, STRUCK_OUT);
      if (struck === 'refused') return 'refused';
      if (struck === 'bad') {
        this.retire(page);
        return 'done';
      }
      pages.is[page] = WASTE;
    }
    if (!this.flash.erase(page)) return 'refused';
    this.state.erasing = page;
    return 'done';
  }

  /** On a flash that came from its maker: all pages are blank, and are marked as if they had been erased. */
  private format(): void {
    const { is } = this.state.pages;
    for (let page = 0; page < FLASH.pages; page++) {
      if (is[page] !== BLANK) continue;
      const marked = this.mark(page);
      if (marked === 'refused') return;
      if (marked === 'bad') this.retire(page);
    }
  }

  /** Opens the next ready page as head. */
  private openPage(): Appended {
    const { state } = this;
    const { pages } = state;
    for (let tried = 0; tried < FLASH.pages; tried++) {
      if (readyRun(pages).ready === 0) return 'full';
      const page = nextPage(pages, pages.head);
      const sequence = pages.head === NO_PAGE ? 1 : pages.is[pages.head]! + 1;
      const opened = this.program(page * FLASH.pageBytes + MARK_BYTES, pageOpening(sequence));
      if (opened === 'refused') return 'refused';
      state.untidy = true;
      if (opened === 'done') {
        pages.is[page] = sequence;
        pages.head = page;
        state.end = PAGE_HEADER_BYTES;
        return 'done';
      }
      this.retire(page);
    }
    return 'full';
  }

  private mark(page: number): 'done' | 'refused' | 'bad' {
    const marked = this.program(page * FLASH.pageBytes, MARK);
    if (marked === 'done') this.state.pages.is[page] = READY;
    return marked;
  }

  /** The page holds nothing that counts, and is used no more. */
  private retire(page: number): void {
    const { state } = this;
    state.pages.retired |= 1 << page;
    state.pages.worn &= ~(1 << page);
    state.noteDue = true;
    state.untidy = true;
  }

  /** The head is written no more. What it holds counts until it is the oldest page: its drops hold for older pages. */
  private wearOut(head: number): void {
    const { state } = this;
    state.pages.worn |= 1 << head;
    state.end = FLASH.pageBytes;
    state.noteDue = true;
    state.untidy = true;
  }

  private program(address: number, bytes: Uint8Array): 'done' | 'refused' | 'bad' {
    if (!this.flash.program(address, bytes)) return 'refused';
    return isSame(this.flash.read(address, bytes.length), bytes) ? 'done' : 'bad';
  }
}
