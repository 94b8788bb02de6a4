// KEP-2: at most 10 000 erases of any page in ten years, computed from simulated days.
import { describe, expect, it } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal } from '../../src/journal/journal.js';

const DAYS_IN_TEN_YEARS = 2500;
const MOST_ERASES = 10_000;
/** 8 h of running, a record every 5 s of it; 500 stops (KEP-2). */
const RECORDS_A_DAY = (8 * 3600) / 5 + 500;
const SESSIONS_A_DAY = 3;
const SIMULATED_DAYS = 40;

/** A device whose small record changes as often as a day asks, beside sealed sessions and a setting. */
class Worn {
  readonly flash = new SimFlash(newFlash(RandomStream.named(1, 'wear')));
  readonly journal = Journal.open(this.flash);
  private written = 0;

  constructor(
    private readonly valueBytes: number,
    stored: number,
  ) {
    for (let slot = 0; slot < stored; slot++) this.keep(2, 100 + slot, this.value(90));
  }

  day(): void {
    const between = Math.floor(RECORDS_A_DAY / SESSIONS_A_DAY);
    for (let record = 0; record < RECORDS_A_DAY; record++) {
      this.keep(1, 0, this.value(this.valueBytes));
      if (record % between === 0) this.keep(2, record / between, this.value(90));
      if (record % between === 100) this.keep(2, (record - 100) / between, null);
      if (record === 0) this.keep(1, 1, this.value(2));
    }
  }

  private keep(type: number, slot: number, value: Uint8Array | null): void {
    const outcome = value === null ? this.journal.drop(type, slot) : this.journal.put(type, slot, value);
    this.flash.finishErase();
    if (outcome !== 'kept' && this.journal.settle() !== 'kept')
      throw new Error(`${outcome}, and not kept 100 ms later`);
  }

  private value(length: number): Uint8Array {
    this.written += 1;
    const value = new Uint8Array(length);
    value.set([this.written >> 8, this.written]);
    return value;
  }
}

describe('KEP-2', () => {
  // Bytes of the small record; sealed sessions that stay in the store; erases of the most worn page in ten years, measured.
  it.each([
    [20, 0, 7000],
    [20, 32, 7500],
    [24, 32, 8500],
    [28, 32, 9500],
  ])(
    'a record of %i bytes, %i sealed sessions in store: at most %i erases in ten years',
    (valueBytes, stored, most) => {
      const worn = new Worn(valueBytes, stored);
      for (let day = 0; day < SIMULATED_DAYS; day++) worn.day();
      const { erases } = worn.flash;
      const inTenYears = (Math.max(...erases) * DAYS_IN_TEN_YEARS) / SIMULATED_DAYS;
      expect(inTenYears).toBeLessThanOrEqual(most);
      expect(inTenYears).toBeGreaterThan(most - 1000);
      expect(most).toBeLessThanOrEqual(MOST_ERASES);
      expect(Math.max(...erases) - Math.min(...erases)).toBeLessThanOrEqual(1);
    },
  );
});
