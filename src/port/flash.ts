// The flash memory that a device keeps its journal in, as the device sees it.

/** NOR flash: erased is 0xFF, a program only clears bits, and a whole page is erased at a time. eraseMs: KEP-5. */
export const FLASH = { pages: 16, pageBytes: 4096, wordBytes: 4, eraseMs: 100 } as const;

/** Addresses and lengths in bytes, 0..pages·pageBytes. */
export interface Flash {
  /** A copy of what is there. */
  read(address: number, length: number): Uint8Array;
  /**
   * Address and length in whole words. Takes no time here. False, and nothing is changed, while an erase goes on; false also
   * where power fails in it, and then anything may have become of the words. True says nothing of how it came out: read.
   */
  program(address: number, bytes: Uint8Array): boolean;
  /** Begins to erase a page; it is over eraseMs later. False while another goes on. */
  erase(page: number): boolean;
  busy(): boolean;
}
