// KEP-1 at the whole counter: power may fail at any byte of any write, in an erase, and while it recovers. At most 10 s of trigger
// time is lost for each failure, nothing is counted twice, and nobody is charged what is another's.
import { expect, test } from 'vitest';
import type { FlashState } from '../../sim/flash/flash.js';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { CounterLife, LAST_BURST_WINDOWS, type Owner } from '../rig/counter-life.js';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { wornFlash } from '../rig/worn-flash.js';

const MOST_LOST_WINDOWS = 100;
const PATIENCE_MS = 60_000;

/** The power is back after a failure: what was counted is there but for 10 s, once, and with whom it belongs. */
function expectWhole(life: CounterLife, ran: Record<Owner, number>, failures: number): void {
  const found = life.saw.found.map((what) => what.split(' ')[1]);
  expect(new Set(found).size).toBe(found.length);
  life.finish();
  const charged = life.charged();
  const all = (sums: Record<Owner, number>) => sums.edda + sums.bram + sums.nobody;
  const last = LAST_BURST_WINDOWS;
  expect(all(charged)).toBeLessThanOrEqual(all(ran) + last);
  expect(all(charged)).toBeGreaterThanOrEqual(all(ran) + last - failures * MOST_LOST_WINDOWS);
  for (const owner of ['edda', 'bram', 'nobody'] as const) {
    expect(charged[owner]).toBeLessThanOrEqual(ran[owner] + last);
  }
  expect(life.saw.states.get('sealed')).toBe('none');
  // What was let go of does not come back with the next start.
  life.saw.cutPower();
  life.saw.powerUp();
  expect(life.charged()).toEqual(charged);
}

function ranOf(life: CounterLife): Record<Owner, number> {
  return { edda: life.ran('edda'), bram: life.ran('bram'), nobody: life.ran('nobody') };
}

function stepsOf(flash: FlashState): number {
  const life = new CounterLife(flash);
  const before = life.saw.flash.steps;
  life.live();
  return life.saw.flash.steps - before;
}

/** A flash on which the life begins an erase in its midst. */
const WORN = wornFlash(200);

test('uncut, everything is charged to the last window', () => {
  const life = new CounterLife(WORN);
  life.live();
  expect(life.saw.flash.erases.reduce((sum, erases) => sum + erases, 0)).toBe(2);
  const ran = ranOf(life);
  expect(ran).toEqual({ edda: 120, bram: 80, nobody: 200 });
  expectWhole(life, ran, 0);
  expect(life.charged()).toEqual({ ...ran, nobody: ran.nobody + LAST_BURST_WINDOWS });
});

test(
  'a failure at any byte of any write, and at any step of an erase',
  () => {
    const steps = stepsOf(WORN);
    expect(steps).toBeGreaterThan(500);
    for (let at = 0; at < steps; at++) {
      const life = new CounterLife(WORN);
      life.saw.flash.failAfter(at);
      life.live();
      expect(life.saw.isOn).toBe(false);
      const ran = ranOf(life);
      life.saw.powerUp();
      expectWhole(life, ran, 1);
    }
  },
  PATIENCE_MS,
);

test(
  'a second failure at any byte that is written while it recovers from the first',
  () => {
    const steps = stepsOf(WORN);
    for (let at = 3; at < steps; at += 37) {
      for (let again = 0; ; again++) {
        const life = new CounterLife(WORN);
        life.saw.flash.failAfter(at);
        life.live();
        const ran = ranOf(life);
        life.saw.flash.failAfter(again);
        life.saw.powerUp();
        if (life.saw.isOn) break;
        life.saw.powerUp();
        expectWhole(life, ran, 2);
      }
    }
  },
  PATIENCE_MS,
);

test(
  'a failure at any 100 ms, whatever is under way',
  () => {
    const whole = new CounterLife(WORN);
    whole.live();
    for (let atMs = 100; atMs < whole.site.nowMs; atMs += 300) {
      const life = new CounterLife(WORN);
      life.site.after(atMs, () => life.saw.cutPower());
      life.live();
      const ran = ranOf(life);
      life.saw.powerUp();
      expectWhole(life, ran, 1);
    }
  },
  PATIENCE_MS,
);

test('bursts that nobody claims are kept as each of them ends, however short they are', () => {
  const saw = new CounterRig(new Site(), 1, 50);
  for (let made = 0; made < 10; made++) saw.work(3_000);
  saw.cutPower();
  saw.powerUp();
  expect(saw.observe()).toMatchObject({ session: 0, triggerWindows: 300 });
});

test('TRG-5: a sensor that had failed in the session has failed in it after the restart too', () => {
  const { site, saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.sensor('frozen');
  site.runFor(1_000);
  saw.sensor('good');
  saw.work(6_000);
  saw.cutPower();
  saw.powerUp();
  expect(saw.sent('tally').at(-1)!.flags & TALLY_FLAGS.sensorFault).toBe(TALLY_FLAGS.sensorFault);
});
