// TAL-2 at the whole counter: a tally states only what the journal holds; numbers are reserved before use, so that none is ever used
// twice under one key for another content, whatever fails. (The end of the numbers: telling.test.ts.)
import { expect, test } from 'vitest';
import { hexText } from '../../src/bench/hex.js';
import type { Tally } from '../../src/link/messages.js';
import { CounterLife } from '../rig/counter-life.js';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { type Frame, Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';
import { WearableRig } from '../rig/wearable-rig.js';
import { wornFlash } from '../rig/worn-flash.js';

const WORN = wornFlash(200);
const PATIENCE_MS = 60_000;

/** What the counter would come back with, were its power to fail at this instant. */
function afterFailure(saw: CounterRig) {
  const flash = saw.flash.fork();
  flash.failNow();
  flash.powerBack();
  return new CounterRig(new Site(), saw.id, 50, flash.state());
}

/** Every frame that a device has sent with a number, by what must not come twice: link, direction, number. */
function contents(frames: readonly Frame[]): Map<string, Set<string>> {
  const found = new Map<string, Set<string>>();
  for (const { from, message, bytes } of frames) {
    if (!('sequence' in message)) continue;
    const nonce = `${from} ${message.link} ${message.sequence}`;
    found.set(nonce, (found.get(nonce) ?? new Set()).add(hexText(bytes)));
  }
  return found;
}

function expectNoNonceTwice(frames: readonly Frame[]): void {
  const twice = [...contents(frames)].filter(([, texts]) => texts.size > 1);
  expect(twice).toEqual([]);
}

test('no tally says more than the counter would come back with, were power to fail at that instant', () => {
  const life = new CounterLife(WORN);
  const told: Tally[] = [];
  const isKept = ({ session, ...sums }: ReturnType<CounterRig['observe']>, tally: Tally) =>
    session !== 0 && sums.dose >= tally.dose && sums.triggerWindows >= tally.triggerWindows;
  life.site.air = ({ from, message, bytes }) => {
    if (from === life.saw.id && message.frame === 'tally') {
      const twin = afterFailure(life.saw);
      // A sealed one is kept word for word, and told by whoever comes back.
      twin.site.runFor(MINUTE);
      const again = twin.sentBytes('tally').map(hexText);
      expect(isKept(twin.observe(), message) || again.includes(hexText(bytes))).toBe(true);
      told.push(message);
    }
    return [5];
  };
  life.live();
  life.finish();
  expect(told.length).toBeGreaterThanOrEqual(10);
  expect(Math.max(...told.map(({ triggerWindows }) => triggerWindows))).toBe(120);
});

test('a tally is of the last 5 s at most: what it says is what is counted', () => {
  const { saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(12_000);
  expect(saw.sent('tally').map(({ triggerWindows }) => triggerWindows)).toEqual([0, 52, 102, 120]);
});

test(
  'no number is used twice for another content, at whichever byte power fails, and fails again',
  () => {
    const uncut = new CounterLife(WORN);
    uncut.live();
    for (let at = 0; at < uncut.saw.flash.steps - WORN.steps; at += 3) {
      const life = new CounterLife(WORN);
      life.saw.flash.failAfter(at);
      life.live();
      if (life.saw.isOn) life.saw.cutPower();
      life.saw.powerUp();
      life.site.runFor(7_000);
      life.saw.cutPower();
      life.saw.powerUp();
      life.finish();
      expectNoNonceTwice(life.site.frames);
    }
  },
  PATIENCE_MS,
);

test('after a failure numbers go on behind all that were given out, block by block', () => {
  const { site, saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(10_000);
  const sequences = () => saw.sent('tally').map(({ sequence }) => sequence);
  const before = sequences().at(-1)!;
  expect(before).toBeLessThan(10);
  saw.cutPower();
  saw.powerUp();
  site.runFor(1_000);
  // A report tells of the failure first.
  expect([saw.sent('report').at(-1)!.sequence, sequences().at(-1)]).toEqual([257, 258]);
  expect(edda.refused).toEqual([]);
});

test('numbers are reserved anew when they are used up, without a pause', () => {
  const { site, saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(30 * MINUTE);
  const sequences = saw.sent('tally').map(({ sequence }) => sequence);
  expect(sequences).toEqual(sequences.map((_, index) => index + 1));
  expect(sequences.length).toBeGreaterThan(300);
  saw.cutPower();
  saw.powerUp();
  expect(saw.sent('tally').at(-1)!.sequence).toBe(514);
  site.runFor(100);
  expect(edda.sent('ack').at(-1)!.highest).toBe(514);
});

test('an acknowledgement of before the last start is a replayed one, whatever its own number', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  const carla = new ToldWearable(saw, 13);
  carla.pair();
  saw.work(10_000);
  const old = carla.acknowledgement('action', 300);
  saw.cutPower();
  saw.powerUp();
  carla.seal(old);
  expect(saw.refused).toEqual(['replayed']);
  expect(saw.display.second).toBe(-1);
  carla.acknowledge('action', 300);
  expect(saw.refused).toEqual(['replayed']);
  expect(saw.display.second).toBe(36);
});

test(
  'the numbers of acknowledgements are used once too, whatever fails at the wearable',
  () => {
    const steps = (() => {
      const { saw, edda } = crewOn();
      day(saw, edda);
      return edda.flash.steps;
    })();
    for (let at = 0; at < steps - WORN.steps; at += 5) {
      const { site, saw, edda } = crewOn();
      edda.flash.failAfter(at);
      day(saw, edda);
      if (edda.isOn) edda.cutPower();
      edda.powerUp();
      saw.work(7_000);
      edda.cutPower();
      edda.powerUp();
      saw.work(7_000);
      expectNoNonceTwice(site.frames);
    }

    function crewOn() {
      const site = new Site();
      return {
        site,
        saw: new CounterRig(site, 1, 50),
        edda: new WearableRig(site, 11, undefined, structuredClone(WORN)),
      };
    }

    function day(saw: CounterRig, edda: WearableRig): void {
      pairUp(saw, edda);
      saw.work(12_000);
    }
  },
  PATIENCE_MS,
);
