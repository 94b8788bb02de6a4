// A flash that tells of each operation before it is done, so that a test may cut it short on a copy.
import type { SimFlash } from '../../sim/flash/flash.js';
import { ERASE_STEPS } from '../../sim/flash/geometry.js';
import type { Flash } from '../../src/port/flash.js';

/** An operation of the flash, that can be done to any copy. */
export interface Operation {
  readonly steps: number;
  readonly erases: boolean;
  readonly on: (flash: SimFlash) => void;
}

export class Foretelling implements Flash {
  constructor(
    readonly inner: SimFlash,
    private readonly tell: (operation: Operation) => void,
  ) {}
  read(address: number, length: number): Uint8Array {
    return this.inner.read(address, length);
  }
  program(address: number, bytes: Uint8Array): boolean {
    if (!this.inner.busy())
      this.tell({ steps: bytes.length, erases: false, on: (flash) => flash.program(address, bytes) });
    return this.inner.program(address, bytes);
  }
  erase(page: number): boolean {
    if (!this.inner.busy()) this.tell({ steps: ERASE_STEPS, erases: true, on: (flash) => flash.erase(page) });
    return this.inner.erase(page);
  }
  busy(): boolean {
    return this.inner.busy();
  }
}
