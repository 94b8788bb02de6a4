// The flash behaves as NOR flash does, and its faults as they are told to.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FlashTold, newFlash, SimFlash } from '../../../sim/flash/flash.js';
import { BLANK, ERASE_STEPS, FLASH_BYTES, GEOMETRY } from '../../../sim/flash/geometry.js';
import { RandomStream } from '../../../sim/kernel/random.js';
import { FLASH, type Flash } from '../../../src/port/flash.js';

const { pageBytes } = GEOMETRY;
const WORDS = Uint8Array.of(0x12, 0x34, 0x56, 0x78, 0x9a, 0xbc, 0xde, 0x00);
/** Random words for an address within a page. */
const PROGRAM = fc.record({
  page: fc.nat(GEOMETRY.pages - 1),
  word: fc.nat(900),
  bytes: fc
    .uint8Array({ minLength: 1, maxLength: 32 })
    .map((some) => Uint8Array.from([...some, ...some, ...some, ...some])),
});

function flash(seed = 1, tell?: (told: FlashTold) => void): SimFlash {
  return new SimFlash(newFlash(RandomStream.named(seed, 'flash')), tell);
}

function erased(one: SimFlash, page: number): void {
  expect(one.erase(page)).toBe(true);
  one.finishErase();
}

it('is the flash that the devices are told of', () => {
  expect(GEOMETRY).toEqual(FLASH);
  const port: Flash = flash();
  expect(port.read(0, FLASH_BYTES)).toEqual(new Uint8Array(FLASH_BYTES).fill(BLANK));
});

describe('program', () => {
  it('writes on blank words, and elsewhere changes nothing', () => {
    fc.assert(
      fc.property(PROGRAM, ({ page, word, bytes }) => {
        const one = flash();
        const address = page * pageBytes + 4 * word;
        const expected = one.read(0, FLASH_BYTES);
        expected.set(bytes, address);
        expect(one.program(address, bytes)).toBe(true);
        expect(Buffer.compare(one.read(0, FLASH_BYTES), expected)).toBe(0);
        expect(one.steps).toBe(bytes.length);
      }),
    );
  });

  it('strikes out what was programmed, and refuses to write anything else over it', () => {
    const one = flash();
    one.program(8, WORDS);
    expect(() => one.program(8, WORDS)).toThrow('the word at 8 has been programmed since it was erased');
    expect(one.program(8, new Uint8Array(8))).toBe(true);
    expect(one.read(8, 8)).toEqual(new Uint8Array(8));
  });

  it('refuses the bytes of a word that are blank, too, once any other of it was programmed', () => {
    const one = flash();
    one.program(8, Uint8Array.of(0x5a, BLANK, BLANK, BLANK));
    expect(() => one.program(8, Uint8Array.of(0, 0x5a, 0x5a, 0x5a))).toThrow('the word at 8 has been programmed');
    expect(() => one.program(4, Uint8Array.of(1, 2, 3, 4, 0, 0x5a, 0x5a, 0x5a))).toThrow('the word at 8');
    expect(one.program(12, WORDS)).toBe(true);
  });

  it('takes whole words within one page', () => {
    for (const [address, length] of [
      [2, 4],
      [0, 6],
      [0, 0],
      [-4, 4],
      [pageBytes - 4, 8],
      [FLASH_BYTES, 4],
      [0.5, 4],
    ] as const) {
      expect(() => flash().program(address, new Uint8Array(length)), `${address}+${length}`).toThrow('no words');
    }
  });

  it('where power fails in it, leaves the bytes before the cut, some bits of the next, and nothing behind', () => {
    let partly = 0;
    fc.assert(
      fc.property(fc.nat(), PROGRAM, fc.nat(), (seed, { page, word, bytes }, some) => {
        const one = flash(seed);
        const address = page * pageBytes + 4 * word;
        const cut = some % bytes.length;
        one.failAfter(cut);
        expect(one.program(address, bytes)).toBe(false);
        expect(one.powered).toBe(false);
        one.powerBack();
        const left = one.read(address, bytes.length);
        expect(left.subarray(0, cut)).toEqual(bytes.subarray(0, cut));
        expect(left[cut]! & bytes[cut]!).toBe(bytes[cut]);
        expect(left.subarray(cut + 1).every((byte) => byte === BLANK)).toBe(true);
        if (left[cut] !== BLANK && left[cut] !== bytes[cut]) partly += 1;
        expect(one.steps).toBe(cut);
      }),
    );
    expect(partly).toBeGreaterThan(0);
  });
});

describe('erase', () => {
  it('makes a page blank once it is over, wears it, and leaves the others', () => {
    const one = flash();
    one.program(pageBytes - 8, WORDS);
    one.program(pageBytes, WORDS);
    one.program(2 * pageBytes, WORDS);
    expect(one.erase(1)).toBe(true);
    expect(one.busy()).toBe(true);
    one.finishErase();
    expect(one.busy()).toBe(false);
    expect(one.read(pageBytes, pageBytes)).toEqual(new Uint8Array(pageBytes).fill(BLANK));
    expect([one.read(pageBytes - 8, 8), one.read(2 * pageBytes, 8)]).toEqual([WORDS, WORDS]);
    expect(one.erases).toEqual(Array.from({ length: 16 }, (_, page) => (page === 1 ? 1 : 0)));
    expect(one.steps).toBe(24 + ERASE_STEPS);
  });

  it('refuses everything but reading while it goes on', () => {
    const one = flash();
    one.erase(1);
    expect(one.program(0, WORDS)).toBe(false);
    expect(one.erase(2)).toBe(false);
    expect(one.read(0, 8)).toEqual(new Uint8Array(8).fill(BLANK));
    expect(one.erases[2]).toBe(0);
  });

  it.each([-1, 16, 1.5])('knows no page %s', (page) => {
    expect(() => flash().erase(page)).toThrow('no page');
    expect(() => flash().spoil(page)).toThrow('no page');
  });

  it('where power fails in it, leaves bits as they were or set, the more of them the later, and never cleared', () => {
    const blank = (steps: number, seed: number): number => {
      const one = flash(seed);
      const before = Uint8Array.from({ length: pageBytes }, (_, index) => index % 255);
      one.program(0, before);
      one.failAfter(steps);
      expect(one.erase(0)).toBe(false);
      one.powerBack();
      const after = one.read(0, pageBytes);
      expect(after.every((byte, index) => (byte & before[index]!) === before[index])).toBe(true);
      return after.filter((byte) => byte === BLANK).length;
    };
    expect(blank(0, 1)).toBe(0);
    const half = blank(ERASE_STEPS / 2, 1);
    expect(half).toBeGreaterThan(pageBytes / 8);
    expect(half).toBeLessThan(pageBytes / 2);
    const last = blank(ERASE_STEPS - 1, 1);
    expect(last).toBeGreaterThan((pageBytes * 9) / 10);
    expect(last).toBeLessThan(pageBytes);
  });

  it('fails in the next one where it was told to, however much is programmed before, and in none after', () => {
    const one = flash();
    one.failInErase();
    expect(one.program(0, WORDS)).toBe(true);
    expect(one.erase(0)).toBe(false);
    expect(one.powered).toBe(false);
    one.powerBack();
    erased(one, 0);
    expect(one.powered).toBe(true);
  });

  it('is left on its way where power fails meanwhile', () => {
    const one = flash();
    one.program(0, new Uint8Array(pageBytes));
    one.erase(0);
    one.failNow();
    one.powerBack();
    one.finishErase();
    const kinds = new Set([...one.read(0, pageBytes)].map((byte) => (byte === 0 || byte === BLANK ? byte : 'between')));
    expect(kinds).toEqual(new Set([0, BLANK, 'between']));
    expect(one.busy()).toBe(false);
  });
});

describe('without power', () => {
  it('does nothing, shows nothing, and is what it was once power is back', () => {
    const one = flash();
    one.program(0, WORDS);
    one.failNow();
    expect(one.program(8, WORDS)).toBe(false);
    expect(one.erase(0)).toBe(false);
    expect(one.busy()).toBe(false);
    expect(one.read(0, 8)).toEqual(new Uint8Array(8).fill(BLANK));
    one.powerBack();
    expect(one.read(0, 16)).toEqual(Uint8Array.from([...WORDS, ...new Uint8Array(8).fill(BLANK)]));
    expect(one.program(8, WORDS)).toBe(true);
  });

  it('fails within the step that was told, over programs and erases', () => {
    const one = flash();
    one.failAfter(8 + ERASE_STEPS + 3);
    expect(one.program(0, WORDS)).toBe(true);
    erased(one, 5);
    expect(one.program(8, WORDS)).toBe(false);
    expect(one.steps).toBe(8 + ERASE_STEPS + 3);
  });
});

describe('a bad page', () => {
  it('takes some bits and keeps others, in programs and erases; the others stay good', () => {
    const one = flash();
    one.program(pageBytes, new Uint8Array(2048));
    one.spoil(1);
    expect(one.program(pageBytes + 2048, new Uint8Array(2048))).toBe(true);
    expect(one.program(2 * pageBytes, new Uint8Array(2048))).toBe(true);
    const half = one.read(pageBytes + 2048, 2048);
    expect(half.some((byte) => byte !== 0) && half.some((byte) => byte === 0)).toBe(true);
    expect(one.read(2 * pageBytes, 2048)).toEqual(new Uint8Array(2048));
    erased(one, 1);
    const after = one.read(pageBytes, pageBytes);
    expect(after.some((byte) => byte !== BLANK) && after.some((byte) => byte === BLANK)).toBe(true);
    erased(one, 2);
    expect(one.read(2 * pageBytes, pageBytes)).toEqual(new Uint8Array(pageBytes).fill(BLANK));
  });
});

describe('state', () => {
  it('is a copy, from which another goes on in the same way', () => {
    const one = flash();
    one.spoil(3);
    one.program(0, WORDS);
    one.erase(3);
    const other = new SimFlash(structuredClone(one.state()));
    const go = (which: SimFlash): void => {
      which.finishErase();
      which.program(3 * pageBytes + 2048, new Uint8Array(4));
      which.failAfter(2);
      which.program(64, WORDS);
    };
    const before = one.state();
    go(other);
    expect(one.state()).toEqual(before);
    go(one);
    expect(one.state()).toEqual(other.state());
    expect(one.state()).not.toEqual(before);
  });

  it('shows within whatever has happened to it', () => {
    const one = flash();
    const shown = new Set([JSON.stringify(one.inside())]);
    const acts: readonly (() => void)[] = [
      () => one.program(0, WORDS),
      () => one.erase(2),
      () => one.finishErase(),
      () => one.spoil(3),
      () => one.spoil(4),
      () => one.failAfter(100),
      () => one.failAfter(200),
      () => one.failInErase(),
      () => one.failNow(),
    ];
    for (const act of acts) {
      act();
      shown.add(JSON.stringify(one.inside()));
    }
    expect(shown.size).toBe(1 + acts.length);
  });

  it('shows within how much chance it has had', () => {
    const [good, bad] = [0, 3].map((page) => {
      const one = flash();
      one.spoil(3);
      one.program(page * pageBytes, WORDS);
      return one.inside();
    });
    expect(good).not.toEqual(bad);
  });

  it('tells of each operation', () => {
    const told: FlashTold[] = [];
    const one = flash(1, (what) => told.push(what));
    one.program(4, WORDS);
    one.erase(2);
    one.program(0, WORDS);
    one.finishErase();
    one.finishErase();
    one.failAfter(1);
    one.program(16, WORDS);
    one.powerBack();
    one.failAfter(0);
    one.erase(0);
    expect(told).toEqual([
      { what: 'programmed', address: 4, length: 8 },
      { what: 'erasing', page: 2 },
      { what: 'erased', page: 2 },
      { what: 'failed', in: 'program' },
      { what: 'failed', in: 'erase' },
    ]);
  });
});
