// What a device sees of its journal: values under keys, changes that wait while an erase goes on or the voltage is low.
import { describe, expect, it } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { ERASE_STEPS, GEOMETRY } from '../../sim/flash/geometry.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal } from '../../src/journal/journal.js';
import { Foretelling } from './foretelling.js';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

function newDevice(): { flash: SimFlash; journal: Journal } {
  const flash = new SimFlash(newFlash(RandomStream.named(1, 'journal')));
  return { flash, journal: Journal.open(flash) };
}

/** A device whose last change has begun the erase of a page. */
function erasing(): { flash: SimFlash; journal: Journal } {
  const device = newDevice();
  for (let made = 0; !device.flash.busy(); made++)
    expect(device.journal.put(1, 0, bytes(made, made >> 8))).toBe('kept');
  return device;
}

describe('what is kept', () => {
  it('is there after opening again: the last value of each key, without what was dropped', () => {
    const { flash, journal } = newDevice();
    journal.put(1, 0, bytes(1));
    journal.put(1, 255, bytes(2, 3, 4, 5, 6));
    journal.put(1, 0, bytes(9, 9));
    journal.put(254, 3, bytes());
    journal.put(1, 7, bytes(8));
    journal.drop(1, 7);
    for (const one of [journal, Journal.open(flash)]) {
      expect(one.entries(1)).toEqual([
        { slot: 0, value: bytes(9, 9) },
        { slot: 255, value: bytes(2, 3, 4, 5, 6) },
      ]);
      expect(one.get(254, 3)).toEqual(bytes());
      expect(one.get(1, 7)).toBeNull();
      expect(one.entries(2)).toEqual([]);
    }
  });

  it('is a copy, both ways', () => {
    const { journal } = newDevice();
    const value = bytes(1, 2, 3);
    journal.put(1, 1, value);
    value[0] = 9;
    journal.get(1, 1)![1] = 9;
    journal.entries(1)[0]!.value[2] = 9;
    expect(journal.get(1, 1)).toEqual(bytes(1, 2, 3));
  });

  it('is not written again, nor is a drop of nothing', () => {
    const { flash, journal } = newDevice();
    journal.put(1, 1, bytes(1, 2, 3));
    const { steps } = flash;
    expect(journal.put(1, 1, bytes(1, 2, 3))).toBe('kept');
    expect(journal.drop(1, 2)).toBe('kept');
    expect(flash.steps).toBe(steps);
    journal.put(1, 1, bytes(1, 2));
    expect(journal.get(1, 1)).toEqual(bytes(1, 2));
  });

  it('has keys and values within their ranges', () => {
    const { journal } = newDevice();
    for (const [type, slot] of [
      [255, 0],
      [-1, 0],
      [0, 256],
      [0, -1],
      [1.5, 0],
      [0, 0.5],
    ] as const) {
      expect(() => journal.put(type, slot, bytes()), `${type}, ${slot}`).toThrow(RangeError);
      expect(() => journal.drop(type, slot)).toThrow(RangeError);
      expect(() => journal.get(type, slot)).toThrow(RangeError);
    }
    expect(() => journal.put(1, 1, new Uint8Array(249))).toThrow(RangeError);
    expect(journal.put(0, 0, new Uint8Array(248))).toBe('kept');
  });
});

describe('opening', () => {
  it('writes nothing and erases nothing, on a new flash and on any other', () => {
    const { flash } = newDevice();
    expect(flash.steps).toBe(0);
    const other = erasing();
    other.flash.failNow();
    other.flash.powerBack();
    const before = other.flash.state();
    Journal.open(other.flash);
    expect(other.flash.state()).toEqual(before);
  });

  it('counts what it replayed and skipped', () => {
    const { flash, journal } = newDevice();
    journal.put(1, 0, bytes(1));
    journal.put(1, 1, bytes(1));
    journal.drop(1, 1);
    flash.failAfter(6);
    journal.put(1, 2, bytes(1, 2, 3, 4, 5));
    flash.powerBack();
    expect(Journal.open(flash).counts()).toEqual({ replayed: 3, torn: 1, retired: 0 });
  });
});

describe('while an erase goes on (KEP-5)', () => {
  it('changes wait in order, and are kept once it is over', () => {
    const { flash, journal } = erasing();
    const last = journal.get(1, 0);
    expect(journal.put(1, 0, bytes(77))).toBe('waiting');
    expect(journal.put(2, 1, bytes(2))).toBe('waiting');
    expect(journal.put(2, 0, bytes(1))).toBe('waiting');
    // Nothing is kept there, and nothing was changed in between: it is as if the last change had never been made.
    expect(journal.drop(2, 0)).toBe('kept');
    expect([journal.get(1, 0), journal.get(2, 1)]).toEqual([last, null]);
    expect(journal.settle()).toBe('waiting');
    flash.finishErase();
    const { steps } = flash;
    expect(journal.settle()).toBe('kept');
    expect([journal.get(1, 0), journal.get(2, 0), journal.get(2, 1)]).toEqual([bytes(77), null, bytes(2)]);
    // The mark of the erased page, and two values: the one that was dropped before it was written is not.
    expect(flash.steps - steps).toBe(4 + 12 + 12);
  });

  it('a change behind one that waits waits too, however free the flash is', () => {
    const { flash, journal } = erasing();
    journal.put(2, 0, bytes(1));
    journal.hold(true);
    flash.finishErase();
    expect(journal.put(2, 1, bytes(2))).toBe('waiting');
    expect(journal.get(2, 0)).toBeNull();
    expect(journal.hold(false)).toBe('kept');
    expect([journal.get(2, 0), journal.get(2, 1)]).toEqual([bytes(1), bytes(2)]);
  });

  it('each change of a key waits in its place, with what was changed between them', () => {
    const { flash, journal } = erasing();
    journal.put(2, 0, bytes(1));
    journal.put(2, 1, bytes(2));
    journal.put(2, 0, bytes(3));
    flash.finishErase();
    // Power fails in the second record that is written once the page is marked.
    flash.failAfter(4 + 12 + 8);
    journal.settle();
    flash.powerBack();
    const again = Journal.open(flash);
    expect([again.get(2, 0), again.get(2, 1)]).toEqual([bytes(1), null]);
  });

  it('a change back to what is kept waits for nothing, and undoes what waits', () => {
    const { flash, journal } = erasing();
    const last = journal.get(1, 0)!;
    journal.put(1, 0, bytes(77));
    expect(journal.put(1, 0, last)).toBe('kept');
    flash.finishErase();
    expect(journal.settle()).toBe('kept');
    expect(journal.get(1, 0)).toEqual(last);
  });

  it('the next change looks after an erase that is over, and what waited for it, where nobody settled', () => {
    const { flash, journal } = erasing();
    journal.put(2, 1, bytes(4));
    flash.finishErase();
    expect(journal.put(2, 2, bytes(5))).toBe('kept');
    expect([journal.get(2, 1), flash.busy()]).toEqual([bytes(4), false]);
  });

  it('nothing that waits outlasts a power failure, and nothing that was kept is lost', () => {
    const { flash, journal } = erasing();
    const last = journal.get(1, 0);
    journal.put(1, 0, bytes(77));
    flash.failNow();
    flash.powerBack();
    expect(Journal.open(flash).get(1, 0)).toEqual(last);
  });
});

describe('below the safe voltage (CEL-1)', () => {
  it('changes wait, and are kept when it is over', () => {
    const { flash, journal } = newDevice();
    journal.put(1, 0, bytes(1));
    const { steps } = flash;
    expect(journal.hold(true)).toBe('kept');
    expect(journal.put(1, 0, bytes(2))).toBe('waiting');
    expect(journal.settle()).toBe('waiting');
    expect(flash.steps).toBe(steps);
    expect(journal.hold(false)).toBe('kept');
    expect(journal.get(1, 0)).toEqual(bytes(2));
  });

  it('an erase that is over is looked after only then', () => {
    const { flash, journal } = erasing();
    journal.hold(true);
    flash.finishErase();
    const { steps } = flash;
    journal.settle();
    expect(flash.steps).toBe(steps);
    journal.hold(false);
    expect(flash.steps).toBe(steps + 4);
  });
});

describe('an erase that power cut short', () => {
  it('is done again, although the page reads blank', () => {
    const { flash, journal } = erasing();
    flash.finishErase();
    const erased = flash.erases.indexOf(1);
    flash.failNow();
    flash.powerBack();
    expect(flash.read(erased * GEOMETRY.pageBytes, 4)).toEqual(bytes(255, 255, 255, 255));
    const again = Journal.open(flash);
    const kept = journal.get(1, 0)!;
    expect(again.settle()).toBe('kept');
    expect(flash.erases[erased]).toBe(2);
    expect(again.put(1, 0, bytes(77))).toBe('waiting');
    flash.finishErase();
    expect(again.get(1, 0)).toEqual(kept);
    expect(again.settle()).toBe('kept');
    expect(again.get(1, 0)).toEqual(bytes(77));
  });
});

/** Of what an erase may leave at each step. */
const VARIANTS = 8;

describe('an erase that power cut short at any step', () => {
  it('brings nothing back that was dropped', () => {
    let cuts = 0;
    const { flash } = newDevice();
    const journal = Journal.open(
      new Foretelling(flash, (operation) => {
        for (let cut = 0; operation.erases && cut < VARIANTS * operation.steps; cut++) {
          const copy = new SimFlash({ ...flash.state(), random: RandomStream.named(cut, 'cut').state() });
          copy.failAfter(cut % operation.steps);
          operation.on(copy);
          copy.powerBack();
          expect(Journal.open(copy).entries(2)).toEqual([]);
          cuts += 1;
        }
      }),
    );
    for (let slot = 0; slot < 200; slot++) {
      journal.put(2, slot, bytes(slot));
      journal.drop(2, slot);
    }
    for (let made = 0; !flash.busy(); made++) journal.put(1, 0, bytes(made, made >> 8));
    expect(cuts).toBe(VARIANTS * ERASE_STEPS);
  });
});

describe('a torn record', () => {
  it('whose value holds a whole record, of that very place, is not taken for it', () => {
    const { flash, journal } = newDevice();
    journal.put(3, 0, bytes(1, 2, 3, 4));
    const from = 12 + 12 + 4;
    const lookalike = recordFor(from, bytes(66));
    flash.failAfter(4 + lookalike.length + 2);
    journal.put(2, 0, Uint8Array.from([...lookalike, 7, 7, 7, 7]));
    flash.powerBack();
    expect(flash.read(from, lookalike.length)).toEqual(lookalike);
    const again = Journal.open(flash);
    expect(again.get(1, 9)).toBeNull();
    expect(again.counts()).toEqual({ replayed: 1, torn: 1, retired: 0 });
    again.put(1, 9, bytes(1));
    expect(Journal.open(flash).get(1, 9)).toEqual(bytes(1));
  });
});

/** The record of type 1, slot 9 that a journal would lay at an offset of its first page: another one is made to lay it. */
function recordFor(offset: number, value: Uint8Array): Uint8Array {
  const { flash, journal } = newDevice();
  journal.put(250, 0, new Uint8Array(offset - 12 - 8));
  journal.put(1, 9, value);
  return flash.read(offset, 8 + Math.ceil(value.length / 4) * 4);
}
