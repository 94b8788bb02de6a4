// KEP-5: an erase of 100 ms loses no window; a tally that is due meanwhile comes after it, and says what is counted by then.
import { expect, test } from 'vitest';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';
import { WearableRig } from '../rig/wearable-rig.js';
import { wornFlash } from '../rig/worn-flash.js';

/** Flashes on which an erase begins with one of the next writes: on some of them with the one that a test is about. */
const worn = Array.from({ length: 45 }, (_, made) => wornFlash(4 * made + 80));

function commitMagnitude(saw: CounterRig): void {
  saw.hold();
  saw.turn(1);
  saw.push();
  saw.push();
}

function tallyTimes(saw: CounterRig): number[] {
  return saw.site.frames
    .filter(({ from, message }) => from === saw.id && message.frame === 'tally')
    .map(({ atMs }) => atMs);
}

test('a tally that is due during an erase comes when it is over, with all that is counted by then', () => {
  let erases = 0;
  for (const flash of worn) {
    const site = new Site();
    const saw = new CounterRig(site, 1, 50, structuredClone(flash));
    const carla = new ToldWearable(saw, 13);
    carla.pair();
    const { link } = carla.answer;
    new ToldWearable(saw, 14).pair();
    site.runTo(1_000);
    saw.level(WORK_MM);
    site.runTo(1_000 + 200 + 4_950);
    // The first session is delivered: it is forgotten, and that may begin an erase.
    carla.acknowledge('none', 0, { link, highest: 9, highestReport: 9 });
    expect(saw.sessions.at(-1)).toBe('delivered 1');
    const erasing = saw.flash.busy();
    if (erasing) erases += 1;
    expect(saw.states.get('journal')).toBe(erasing ? 'erasing' : 'ready');
    site.runTo(11_200);
    expect(tallyTimes(saw).slice(-2)).toEqual([6_200 + (erasing ? 50 : 0), 11_200]);
    expect(
      saw
        .sent('tally')
        .slice(-2)
        .map(({ triggerWindows }) => triggerWindows),
    ).toEqual([52, 102]);
    site.runFor(100);
    expect(saw.states.get('journal')).toBe('ready');
  }
  expect(erases).toBeGreaterThan(0);
});

test('a tally with nothing new in it waits for no erase', () => {
  let erases = 0;
  for (const flash of worn) {
    const site = new Site();
    const saw = new CounterRig(site, 1, 50, structuredClone(flash));
    new ToldWearable(saw, 13).pair();
    site.runTo(MINUTE - 50);
    commitMagnitude(saw);
    if (saw.flash.busy()) erases += 1;
    site.runTo(2 * MINUTE);
    expect(tallyTimes(saw).slice(-2)).toEqual([MINUTE, 2 * MINUTE]);
  }
  expect(erases).toBeGreaterThan(0);
});

test('no window is lost over hours in which pages are erased, and every tally comes at its time', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50, structuredClone(worn[0]!));
  const edda = new WearableRig(site, 11);
  pairUp(saw, edda);
  const before = tallyTimes(saw).length;
  saw.work(120 * MINUTE);
  expect(saw.flash.erases.reduce((sum, erases) => sum + erases, 0)).toBeGreaterThan(8);
  expect(saw.observe().triggerWindows).toBe(72_000);
  expect(edda.dose).toBe(72_000 * 250_000);
  const gaps = tallyTimes(saw)
    .slice(before)
    .map((atMs, index, all) => atMs - (all[index - 1] ?? atMs - 5_000));
  expect(new Set(gaps.slice(0, -1))).toEqual(new Set([5_000]));
});

test('windows that begin and end during an erase are counted, also those with which the tool starts and stops', () => {
  let erases = 0;
  for (const flash of worn) {
    const site = new Site();
    const saw = new CounterRig(site, 1, 50, structuredClone(flash));
    new ToldWearable(saw, 13).pair();
    site.runTo(1_050);
    commitMagnitude(saw);
    if (saw.flash.busy()) erases += 1;
    site.runTo(1_100);
    saw.windows(WORK_MM, WORK_MM, REST_MM, REST_MM, REST_MM, REST_MM, REST_MM);
    expect(saw.observe()).toMatchObject({ triggerWindows: 2, dose: 2 * 100 * 51 * 51 });
    expect(saw.sent('tally').at(-1)).toMatchObject({ triggerWindows: 2 });
  }
  expect(erases).toBeGreaterThan(0);
});

test('a session that ends during an erase is told once the journal holds it, as it ended', () => {
  let erases = 0;
  for (const flash of worn) {
    const site = new Site();
    const saw = new CounterRig(site, 1, 50, structuredClone(flash));
    const carla = new ToldWearable(saw, 13);
    carla.pair();
    saw.work(2_000);
    const told = saw.sent('tally').length;
    commitMagnitude(saw);
    const erasing = saw.flash.busy();
    carla.acknowledge('none', 0, { closed: true });
    if (erasing) erases += 1;
    expect(saw.sessions).toEqual(['opened 1', 'sealed 1']);
    expect(saw.sent('tally')).toHaveLength(erasing ? told : told + 1);
    site.runFor(MINUTE);
    expect(saw.sent('tally').at(-1)).toMatchObject({ triggerWindows: 20 });
    carla.acknowledge('none', 0);
    expect(saw.sessions.at(-1)).toBe('delivered 1');
  }
  expect(erases).toBeGreaterThan(0);
});
