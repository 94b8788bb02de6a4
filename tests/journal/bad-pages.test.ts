// KEP-4: programs and erases are verified, and pages that fail are retired; a journal that can keep nothing says so.
import { describe, expect, it } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { GEOMETRY } from '../../sim/flash/geometry.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal, type Outcome } from '../../src/journal/journal.js';
import { contentsOf } from './model.js';

const STORED = 20;

/** A device at work: 20 values that stay, and one that changes; sizes in bytes. */
class Device {
  readonly flash: SimFlash;
  journal: Journal;
  private written = 0;

  constructor(seed: number, storedBytes = 90) {
    this.flash = new SimFlash(newFlash(RandomStream.named(seed, 'bad')));
    this.journal = Journal.open(this.flash);
    for (let slot = 0; slot < STORED; slot++) this.keep(2, slot, new Uint8Array(storedBytes).fill(slot));
  }

  keep(type: number, slot: number, value: Uint8Array): Outcome {
    let outcome = this.journal.put(type, slot, value);
    for (let wait = 0; wait < 40 && this.flash.busy(); wait++) {
      this.flash.finishErase();
      outcome = this.journal.settle();
    }
    return outcome;
  }

  work(changes: number): Outcome {
    let outcome: Outcome = 'kept';
    for (let made = 0; made < changes; made++) {
      this.written += 1;
      const value = new Uint8Array(20);
      value.set([this.written >> 8, this.written]);
      outcome = this.keep(1, 0, value);
    }
    return outcome;
  }

  reopen(): void {
    this.journal = Journal.open(this.flash);
  }

  expectAllStored(): void {
    expect(contentsOf(this.journal).size).toBe(STORED + 1);
    expect(contentsOf(Journal.open(this.flash.fork()))).toEqual(contentsOf(this.journal));
    for (let slot = 0; slot < STORED; slot++) expect(this.journal.get(2, slot)?.[0]).toBe(slot);
  }
}

/** Enough changes for the ring to go round. */
const ROUND = 2600;

describe('bad pages', () => {
  it('are retired one after another, up to eleven, and nothing is lost', () => {
    for (let seed = 0; seed < 5; seed++) {
      const device = new Device(seed);
      for (let page = 0; page < 11; page++) {
        device.flash.spoil((page * 5 + seed) % GEOMETRY.pages);
        expect(device.work(ROUND)).toBe('kept');
        expect(device.journal.counts().retired).toBe(page + 1);
        device.expectAllStored();
      }
      expect(device.journal.failed()).toBe(false);
    }
  });

  it('are written no more once they are retired, also after a restart', () => {
    const device = new Device(1);
    device.work(700);
    device.flash.spoil(4);
    device.flash.spoil(9);
    device.work(ROUND);
    device.reopen();
    const before = [4, 9].map((page) => device.flash.read(page * GEOMETRY.pageBytes, GEOMETRY.pageBytes));
    const erases = [4, 9].map((page) => device.flash.erases[page]);
    expect(device.journal.counts().retired).toBe(2);
    device.work(2 * ROUND);
    expect([4, 9].map((page) => device.flash.read(page * GEOMETRY.pageBytes, GEOMETRY.pageBytes))).toEqual(before);
    expect([4, 9].map((page) => device.flash.erases[page])).toEqual(erases);
    device.expectAllStored();
  });

  it('leave the others evenly worn', () => {
    const device = new Device(2);
    device.work(ROUND);
    device.flash.spoil(3);
    device.flash.spoil(12);
    device.work(4 * ROUND);
    const healthy = device.flash.erases.filter((_, page) => page !== 3 && page !== 12);
    expect(Math.max(...healthy) - Math.min(...healthy)).toBeLessThanOrEqual(2);
  });

  it('do not bring back what was dropped while its page was good', () => {
    for (let seed = 0; seed < 40; seed++) {
      const device = new Device(seed);
      device.keep(3, 1, new Uint8Array(60).fill(7));
      device.flash.spoil(0);
      device.work(100 + 35 * seed);
      expect(device.journal.drop(3, 1)).toBe('kept');
      for (let times = 0; times < 30; times++) {
        device.work(150);
        device.reopen();
        expect(device.journal.get(3, 1), `${seed}, ${times}`).toBeNull();
      }
      expect(device.journal.counts().retired).toBe(1);
    }
  });
});

describe('a journal that can keep nothing', () => {
  it('says so for good, throws nothing, and shows what it kept', () => {
    for (let seed = 0; seed < 20; seed++) {
      const device = new Device(seed);
      device.work(100 * seed);
      const kept = contentsOf(device.journal);
      for (let page = 0; page < GEOMETRY.pages; page++) device.flash.spoil(page);
      expect(device.work(ROUND)).toBe('failed');
      expect(device.journal.failed()).toBe(true);
      for (const key of kept.keys()) if (key !== 0x100) expect(contentsOf(device.journal).get(key)).toBe(kept.get(key));
      const { steps } = device.flash;
      expect(device.work(10)).toBe('failed');
      expect(device.journal.drop(2, 3)).toBe('failed');
      expect(device.journal.settle()).toBe('failed');
      expect(device.journal.hold(false)).toBe('failed');
      expect(device.flash.steps).toBe(steps);
      expect(device.journal.put(2, 3, new Uint8Array(90).fill(3))).toBe('kept');
      device.reopen();
      expect(device.work(ROUND)).toBe('failed');
      expect(device.journal.get(2, 3)?.length).toBe(90);
    }
  });

  it('says so when what is live no longer fits the pages that are left', () => {
    const device = new Device(3, 248);
    const room: number[] = [];
    for (let page = 0; page < GEOMETRY.pages && !device.journal.failed(); page++) {
      device.flash.spoil(page);
      device.work(ROUND);
      room.push(GEOMETRY.pages - device.journal.counts().retired);
    }
    // 20 records of 256 bytes need two pages beside the head and the three that are ready.
    expect(room.at(-1)).toBe(5);
    expect(device.journal.get(2, 7)?.length).toBe(248);
  });
});

describe('room', () => {
  it('is refused to what does not fit, without harm to what is kept', () => {
    const device = new Device(4);
    let taken = 0;
    for (let slot = 0; slot < 256 && device.keep(3, slot, new Uint8Array(248).fill(slot)) === 'kept'; slot++)
      taken += 1;
    expect(taken).toBeGreaterThan(150);
    expect(taken).toBeLessThan(200);
    expect(device.journal.failed()).toBe(false);
    expect(device.keep(3, 0, new Uint8Array(248).fill(99))).toBe('kept');
    const erases = Math.max(...device.flash.erases);
    for (let times = 0; times < 300; times++) {
      expect(device.keep(3, times % taken, new Uint8Array(248).fill(times))).toBe('kept');
    }
    expect(device.work(100)).toBe('kept');
    expect(Math.max(...device.flash.erases) - erases).toBeLessThan(40);
    expect(device.journal.drop(3, 5)).toBe('kept');
    expect(device.keep(3, 255, new Uint8Array(240))).toBe('kept');
  });
});
