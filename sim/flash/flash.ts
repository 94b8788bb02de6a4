// A flash memory whose power can be made to fail at any byte, whose pages wear and go bad. It is what a device's journal
// writes to; nothing here knows what the bytes mean. Time is the caller's: it says when an erase is over.
import { type RandomState, RandomStream } from '../kernel/random.js';
import { BLANK, ERASE_STEPS, FLASH_BYTES, GEOMETRY } from './geometry.js';
import { eraseBadly, eraseCut, programBadly, programCut, programWell } from './metal.js';

/** Plain data: structuredClone copies it. */
export interface FlashState {
  bytes: Uint8Array;
  /** Erases begun of each page: what it has worn. */
  erases: number[];
  /** Which pages have gone bad, for good. */
  bad: boolean[];
  /** Steps at which power could have failed so far: one a byte programmed, ERASE_STEPS an erase. */
  steps: number;
  /** Power fails when this many steps have been made, in the one that would be next; null: it does not. */
  failsAt: number | null;
  /** Power fails in the next erase. */
  failsInErase: boolean;
  powered: boolean;
  /** The page that is being erased, or null. */
  erasing: number | null;
  random: RandomState;
}

/** What happened to the flash, told when it has. */
export type FlashTold =
  | { readonly what: 'programmed'; readonly address: number; readonly length: number }
  | { readonly what: 'erasing'; readonly page: number }
  | { readonly what: 'erased'; readonly page: number }
  /** Power failed as planned by failAfter, in this operation; whoever planned it now stops the device. */
  | { readonly what: 'failed'; readonly in: 'program' | 'erase' };

export function newFlash(random: RandomStream): FlashState {
  return {
    bytes: new Uint8Array(FLASH_BYTES).fill(BLANK),
    erases: new Array<number>(GEOMETRY.pages).fill(0),
    bad: new Array<boolean>(GEOMETRY.pages).fill(false),
    steps: 0,
    failsAt: null,
    failsInErase: false,
    powered: true,
    erasing: null,
    random: random.state(),
  };
}

export class SimFlash {
  private readonly random: RandomStream;

  /** Goes on from a state, which it takes over; tell hears of each operation once it is done. */
  constructor(
    private readonly inner: FlashState,
    private readonly tell: (told: FlashTold) => void = () => {},
  ) {
    this.random = RandomStream.fromState(inner.random);
  }

  /** A flash of its own that goes on from here. */
  fork(tell?: (told: FlashTold) => void): SimFlash {
    return new SimFlash(this.state(), tell);
  }

  /** A copy. */
  state(): FlashState {
    const { bytes, erases, bad } = this.inner;
    return { ...this.inner, bytes: bytes.slice(), erases: [...erases], bad: [...bad], random: this.random.state() };
  }

  /** What decides how it goes on, for a digest: all but the bytes, which are many, and what it has worn, which decides nothing. */
  inside(): readonly unknown[] {
    const { steps, failsAt, failsInErase, powered, erasing, bad } = this.inner;
    return [steps, failsAt, failsInErase, powered, erasing, bad, this.random.drawn];
  }

  get steps(): number {
    return this.inner.steps;
  }

  get powered(): boolean {
    return this.inner.powered;
  }

  /** How often the erase of each page has begun. */
  get erases(): readonly number[] {
    return this.inner.erases;
  }

  /** A copy; without power nothing can be read, and all reads blank. Throws where it is not within the flash. */
  read(address: number, length: number): Uint8Array {
    if (!(address >= 0 && length >= 0 && address + length <= FLASH_BYTES))
      throw new Error(`no bytes ${address}+${length}`);
    if (!this.inner.powered) return new Uint8Array(length).fill(BLANK);
    return this.inner.bytes.slice(address, address + length);
  }

  /**
   * False without power and while an erase goes on: nothing is changed. False where power fails in it.
   * Throws where it is not in whole words within one page, and where a word that is not blank would get other than zeros: a
   * word may be programmed once between two erases, and struck out.
   */
  program(address: number, bytes: Uint8Array): boolean {
    const { inner, random } = this;
    requireWords(address, bytes.length);
    if (!inner.powered || inner.erasing !== null) return false;
    requireBlankOrZeros(inner.bytes, address, bytes);
    const whole = this.stepsLeft(bytes.length);
    if (whole < bytes.length) {
      programCut(inner.bytes, address, bytes, whole, random);
      this.powerFails('program', whole);
      return false;
    }
    inner.steps += bytes.length;
    if (inner.bad[Math.floor(address / GEOMETRY.pageBytes)]) programBadly(inner.bytes, address, bytes, random);
    else programWell(inner.bytes, address, bytes);
    this.tell({ what: 'programmed', address, length: bytes.length });
    return true;
  }

  /**
   * Begins to erase a page; false without power and while another erase goes on. Its steps are counted now: where power is to
   * fail in one of them it fails at once. Throws where there is no such page.
   */
  erase(page: number): boolean {
    const { inner } = this;
    requirePage(page);
    if (!inner.powered || inner.erasing !== null) return false;
    inner.erases[page]! += 1;
    if (inner.failsInErase) this.failAfter(this.random.within(0, ERASE_STEPS - 1));
    const made = this.stepsLeft(ERASE_STEPS);
    if (made < ERASE_STEPS) {
      eraseCut(this.pageBytes(page), made, this.random);
      this.powerFails('erase', made);
      return false;
    }
    inner.steps += ERASE_STEPS;
    inner.erasing = page;
    this.tell({ what: 'erasing', page });
    return true;
  }

  busy(): boolean {
    return this.inner.erasing !== null;
  }

  /** GEOMETRY.eraseMs have passed since the erase began. Nothing where none goes on, as power may have failed meanwhile. */
  finishErase(): void {
    const { inner } = this;
    const page = inner.erasing;
    if (page === null) return;
    inner.erasing = null;
    if (inner.bad[page]) eraseBadly(this.pageBytes(page), this.random);
    else this.pageBytes(page).fill(BLANK);
    this.tell({ what: 'erased', page });
  }

  /** Power fails after that many steps more, 0 or more: within the next byte to be programmed, or step of an erase. */
  failAfter(steps: number): void {
    this.inner.failsAt = this.inner.steps + steps;
  }

  /** Power fails in the next erase, somewhere on its way. */
  failInErase(): void {
    this.inner.failsInErase = true;
  }

  /** Power fails now; an erase that goes on is left somewhere on its way. */
  failNow(): void {
    const { inner, random } = this;
    if (inner.erasing !== null) eraseCut(this.pageBytes(inner.erasing), random.within(0, ERASE_STEPS - 1), random);
    inner.erasing = null;
    inner.failsAt = null;
    inner.failsInErase = false;
    inner.powered = false;
  }

  powerBack(): void {
    this.inner.powered = true;
  }

  /** The page goes bad, for good. */
  spoil(page: number): void {
    requirePage(page);
    this.inner.bad[page] = true;
  }

  private stepsLeft(wanted: number): number {
    const { failsAt, steps } = this.inner;
    return failsAt === null ? wanted : Math.min(wanted, Math.max(0, failsAt - steps));
  }

  private powerFails(during: 'program' | 'erase', steps: number): void {
    this.inner.steps += steps;
    this.inner.failsAt = null;
    this.inner.failsInErase = false;
    this.inner.powered = false;
    this.tell({ what: 'failed', in: during });
  }

  private pageBytes(page: number): Uint8Array {
    return this.inner.bytes.subarray(page * GEOMETRY.pageBytes, (page + 1) * GEOMETRY.pageBytes);
  }
}

function requirePage(page: number): void {
  if (!(Number.isInteger(page) && page >= 0 && page < GEOMETRY.pages)) throw new Error(`no page ${page}`);
}

function requireWords(address: number, length: number): void {
  const whole = address % GEOMETRY.wordBytes === 0 && length % GEOMETRY.wordBytes === 0 && length > 0;
  const last = address + length - 1;
  const onePage = Math.floor(address / GEOMETRY.pageBytes) === Math.floor(last / GEOMETRY.pageBytes);
  if (!(whole && onePage && address >= 0 && last < FLASH_BYTES))
    throw new Error(`no words ${address}+${length} of a page`);
}

function requireBlankOrZeros(flash: Uint8Array, address: number, bytes: Uint8Array): void {
  for (let word = 0; word < bytes.length; word += GEOMETRY.wordBytes) {
    let all = BLANK;
    let any = 0;
    for (let index = word; index < word + GEOMETRY.wordBytes; index++) {
      all &= flash[address + index]!;
      any |= bytes[index]!;
    }
    if (all !== BLANK && any !== 0)
      throw new Error(`the word at ${address + word} has been programmed since it was erased`);
  }
}
