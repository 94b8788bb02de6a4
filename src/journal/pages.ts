// What the journal knows of its pages. They are a ring: the head, which is written to, then pages that are ready to be
// opened, then, from the oldest on, those that hold records. So the oldest is always the next to be erased.
import { FLASH } from '../port/flash.js';

/** A page that holds records is known by its sequence, 1 or more; the others by one of these. */
export const READY = -1;
/** Blank, but not marked as erased: as it left its maker, or as an erase that was cut short may look. */
export const BLANK = -2;
/** Whatever is on it counts for nothing: it must be erased. */
export const WASTE = 0;

/** Plain data. Masks have a bit for each page. */
export interface Pages {
  /** Sequence, READY, BLANK or WASTE. */
  is: number[];
  head: number;
  /** No longer used at all: what is on them counts for nothing. */
  retired: number;
  /** A program on them went wrong: they hold records, but are written no more, and are retired when they are the oldest. */
  worn: number;
}

/** Before the first page is opened there is no head; the ring then begins with page 0. */
export const NO_PAGE = -1;

export function has(mask: number, page: number): boolean {
  return ((mask >> page) & 1) === 1;
}

/** The next page of the ring that is not retired; NO_PAGE where that would be the head itself. */
export function nextPage({ head, retired }: Pages, after: number): number {
  for (let step = 1; step <= FLASH.pages; step++) {
    const page = (after + step) % FLASH.pages;
    if (page === head) return NO_PAGE;
    if (!has(retired, page)) return page;
  }
  return NO_PAGE;
}

/** The ready pages that follow the head without a gap, and the page after them: the next to be made ready, or NO_PAGE. */
export function readyRun(pages: Pages): { ready: number; next: number } {
  let next = nextPage(pages, pages.head);
  let ready = 0;
  while (next !== NO_PAGE && pages.is[next] === READY && ready < FLASH.pages) {
    ready += 1;
    next = nextPage(pages, next);
  }
  return { ready: ready, next: ready === FLASH.pages ? NO_PAGE : next };
}

/** Pages that are still written to. */
export function usable({ retired, worn }: Pages): number {
  let count = 0;
  for (let page = 0; page < FLASH.pages; page++) if (!has(retired | worn, page)) count += 1;
  return count;
}
