// KEP-4: programs and erases are verified, and pages that fail are retired; a journal that can keep nothing says so.
import { describe, expect, it, vi } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { GEOMETRY } from '../../sim/flash/geometry.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal, type Outcome } from '../../src/journal/journal.js';
import { READY_PAGES } from '../../src/journal/log.js';
import { Foretelling } from './foretelling.js';
import { contentsOf } from './model.js';

vi.setConfig({ testTimeout: 120_000 });

/** A device at work: values that stay, and one that changes. */
class Device {
  private written = 0;

  private constructor(
    readonly flash: SimFlash,
    public journal: Journal,
    private readonly stored: number,
  ) {}

  static opened(seed: number, { stored, bytes } = { stored: 20, bytes: 90 }): Device {
    const flash = new SimFlash(newFlash(RandomStream.named(seed, 'bad')));
    const device = new Device(flash, Journal.open(flash), stored);
    for (let slot = 0; slot < stored; slot++) device.keep(2, slot, new Uint8Array(bytes).fill(slot));
    return device;
  }

  fork(): Device {
    const flash = this.flash.fork();
    return new Device(flash, this.journal.fork(flash), this.stored);
  }

  keep(type: number, slot: number, value: Uint8Array): Outcome {
    let outcome = this.journal.put(type, slot, value);
    for (let wait = 0; wait < 40 && this.flash.busy(); wait++) {
      this.flash.finishErase();
      outcome = this.journal.settle();
    }
    return outcome;
  }

  work(changes: number, bytes = 20): Outcome {
    let outcome: Outcome = 'kept';
    for (let made = 0; made < changes; made++) {
      this.written += 1;
      const value = new Uint8Array(bytes);
      value.set([this.written >> 8, this.written]);
      outcome = this.keep(1, 0, value);
    }
    return outcome;
  }

  reopen(): void {
    this.journal = Journal.open(this.flash);
  }

  expectAllStored(): void {
    expect(contentsOf(this.journal).size).toBe(this.stored + 1);
    expect(contentsOf(Journal.open(this.flash.fork()))).toEqual(contentsOf(this.journal));
    for (let slot = 0; slot < this.stored; slot++) expect(this.journal.get(2, slot)?.[0]).toBe(slot);
  }
}

let last = 0;

/** A value unlike the one before. */
function bytesOf(length: number): Uint8Array {
  last += 1;
  return new Uint8Array(length).fill(last);
}

/** Enough changes for the ring to go round. */
const ROUND = 2600;

describe('bad pages', () => {
  it('are retired one after another, up to ten, and nothing is lost', () => {
    for (let seed = 0; seed < 5; seed++) {
      const device = Device.opened(seed);
      for (let page = 0; page < 10; page++) {
        device.flash.spoil((page * 5 + seed) % GEOMETRY.pages);
        expect(device.work(ROUND)).toBe('kept');
        expect(device.journal.counts().retired).toBe(page + 1);
        device.expectAllStored();
      }
      expect(device.journal.failed()).toBe(false);
    }
  });

  it('may be any two at once, also where the pages before them are full of what is live', () => {
    const crowded = Device.opened(5, { stored: 100, bytes: 248 });
    for (let phase = 0; phase < 4; phase++) {
      crowded.work(14, 248);
      for (let one = 0; one < GEOMETRY.pages; one++) {
        for (let other = one + 1; other < GEOMETRY.pages; other++) {
          const device = crowded.fork();
          device.flash.spoil(one);
          device.flash.spoil(other);
          expect(device.work(120, 248), `${phase}: ${one} and ${other}`).toBe('kept');
          expect(device.journal.counts().retired).toBe(2);
          device.expectAllStored();
        }
      }
    }
  });

  it('are written no more once they are retired, also after a restart', () => {
    const device = Device.opened(1);
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
    const device = Device.opened(2);
    device.work(ROUND);
    device.flash.spoil(3);
    device.flash.spoil(12);
    device.work(4 * ROUND);
    const healthy = device.flash.erases.filter((_, page) => page !== 3 && page !== 12);
    expect(Math.max(...healthy) - Math.min(...healthy)).toBeLessThanOrEqual(2);
  });

  it('do not bring back what was dropped, also where power fails before all is noted', () => {
    for (let seed = 0; seed < 4; seed++) {
      const flash = new SimFlash(newFlash(RandomStream.named(seed, 'bad')));
      const watched = new Foretelling(flash, () => {
        if (isDropped && Journal.open(flash.fork()).get(3, 1) !== null) throw new Error('what was dropped is back');
      });
      let isDropped = false;
      const journal = Journal.open(watched);
      journal.put(3, 1, bytesOf(60));
      // The first page is worn now, holds the value, and will be retired without being erased; the next holds the drop.
      flash.spoil(0);
      while (journal.counts().retired === 0) journal.put(1, 0, bytesOf(20));
      expect(journal.drop(3, 1)).toBe('kept');
      isDropped = true;
      for (let made = 0; made < ROUND; made++) {
        journal.put(1, 0, bytesOf(20));
        flash.finishErase();
        journal.settle();
      }
      expect(flash.erases.slice(0, 2)).toEqual([0, 1]);
    }
  });

  it('do not bring back what was dropped while its page was good', () => {
    for (let seed = 0; seed < 40; seed++) {
      const device = Device.opened(seed);
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
      const device = Device.opened(seed);
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

  it('says so when only its head is good and has no more room', () => {
    for (let seed = 0; seed < 30; seed++) {
      // The next page to be opened is the first that must be made up for, by the oldest, which is full of what is live.
      const device = Device.opened(seed, { stored: 30, bytes: 248 });
      while (device.journal.inside().pages.head < GEOMETRY.pages - READY_PAGES - 1) device.work(1, 248);
      for (let page = 0; page < GEOMETRY.pages; page++) {
        if (page !== device.journal.inside().pages.head) device.flash.spoil(page);
      }
      expect(device.work(15, 248), `${seed}`).toBe('failed');
      expect(device.journal.get(2, 29)?.length).toBe(248);
    }
  });

  it('says so when what is live no longer fits the pages that are left', () => {
    const device = Device.opened(3, { stored: 20, bytes: 248 });
    const room: number[] = [];
    for (let page = 0; page < GEOMETRY.pages && !device.journal.failed(); page++) {
      device.flash.spoil(page);
      device.work(ROUND);
      room.push(GEOMETRY.pages - device.journal.counts().retired);
    }
    // 20 records of 256 bytes need two pages beside the head and the four that are ready.
    expect(room.at(-1)).toBe(6);
    expect(device.journal.get(2, 7)?.length).toBe(248);
  });
});

describe('room', () => {
  it('is refused to what does not fit, without harm to what is kept', () => {
    const device = Device.opened(4);
    let taken = 0;
    for (let slot = 0; slot < 256 && device.keep(3, slot, new Uint8Array(248).fill(slot)) === 'kept'; slot++)
      taken += 1;
    expect(taken).toBeGreaterThan(150);
    expect(taken).toBeLessThan(170);
    expect(device.journal.failed()).toBe(false);
    device.reopen();
    expect(device.keep(3, 200, new Uint8Array(248))).toBe('failed');
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
