// TAL-6: when a counter falls silent, what is known of it becomes stale, is marked, and is never shown as live.
import { beforeEach, expect, test } from 'vitest';
import { HOUR } from '../rig/day.js';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
});

/** "1 on 20000": counter 1 marked at 20 s. */
function marks(): string[] {
  return edda.marks.map(({ atMs, counter, on }) => `${counter} ${on ? 'on' : 'off'} ${atMs}`);
}

test('stale 20 s after a tally of a running counter, to the millisecond', () => {
  const saw = toldSession(edda);
  saw.tell({ flags: ['running'], dose: 3 * POINT });
  site.runFor(19_999);
  expect(edda.display.icons).toEqual([]);
  site.runFor(1);
  expect(edda.display).toMatchObject({ value: 3, icons: ['stale'] });
  expect(marks()).toEqual(['1 on 20000']);
});

test('stale 150 s after a tally of a counter at rest, to the millisecond', () => {
  toldSession(edda);
  site.runFor(149_999);
  expect(edda.display.icons).toEqual([]);
  site.runFor(1);
  expect(edda.display.icons).toEqual(['stale']);
  expect(marks()).toEqual(['1 on 150000']);
});

test('a new tally takes the mark off, and the time begins again', () => {
  const saw = toldSession(edda);
  site.runFor(200_000);
  saw.tell({ flags: ['running'] });
  expect(edda.display.icons).toEqual([]);
  site.runFor(20_000);
  expect(marks()).toEqual(['1 on 150000', '1 off 200000', '1 on 220000']);
});

test('a counter at rest that begins to run is stale 20 s later, not at the time planned for its rest', () => {
  const saw = toldSession(edda);
  site.runFor(5_000);
  saw.tell({ flags: ['running'] });
  site.runFor(60_000);
  expect(marks()).toEqual(['1 on 25000']);
});

test('a running counter that comes to rest has 150 s', () => {
  const saw = toldSession(edda);
  saw.tell({ flags: ['running'] });
  site.runFor(10_000);
  saw.tell({});
  site.runFor(200_000);
  expect(marks()).toEqual(['1 on 160000']);
});

test('each counter is marked by itself', () => {
  const saw = toldSession(edda, 1);
  toldSession(edda, 2);
  for (let told = 0; told < 20; told++) {
    site.runFor(10_000);
    saw.tell({ flags: ['running'] });
  }
  site.runFor(30_000);
  expect(marks()).toEqual(['2 on 150000', '1 on 220000']);
});

test('a tally heard before, or one that comes late, is not news', () => {
  const saw = toldSession(edda);
  const late = saw.make({ flags: ['running'], dose: 1 });
  const last = saw.tell({ flags: ['running'], dose: 2 });
  site.runFor(10_000);
  saw.hear(last);
  saw.hear(late);
  site.runFor(10_000);
  expect(marks()).toEqual(['1 on 20000']);
  saw.hear(last);
  expect(edda.display.icons).toEqual(['stale']);
  expect(edda.sent('ack').at(-1)).toMatchObject({ highest: last.message.sequence });
});

test('a late tally does not tell of running', () => {
  const saw = toldSession(edda);
  const late = saw.make({ flags: ['running'] });
  saw.tell({ flags: [] });
  saw.hear(late);
  site.runFor(100_000);
  expect(marks()).toEqual([]);
});

test('after the last tally of a sealed session nothing is waited for', () => {
  const saw = toldSession(edda);
  saw.tell({ flags: ['sealed'] });
  site.runFor(HOUR);
  expect(marks()).toEqual([]);
});

test('a sealed tally takes the mark off for good', () => {
  const saw = toldSession(edda);
  site.runFor(HOUR);
  saw.tell({ flags: ['sealed'] });
  site.runFor(HOUR);
  expect(marks()).toEqual(['1 on 150000', `1 off ${HOUR}`]);
  expect(edda.display.icons).toEqual([]);
});

test('a key that no tally has confirmed is never stale', () => {
  new ToldSession(edda, 1, 7);
  site.runFor(HOUR);
  expect(marks()).toEqual([]);
});

test('the newest session decides on the mark of its counter; the icon stands while any sum is old', () => {
  const first = toldSession(edda, 1, 101, 1);
  site.runFor(200_000);
  const second = toldSession(edda, 1, 102, 2);
  expect(marks()).toEqual(['1 on 150000', '1 off 200000']);
  expect(edda.display.icons).toEqual(['stale']);
  site.runFor(200_000);
  expect(marks()).toEqual(['1 on 150000', '1 off 200000', '1 on 350000']);
  first.tell({ flags: ['sealed'] });
  expect(marks()).toHaveLength(3);
  expect(edda.display.icons).toEqual(['stale']);
  second.tell();
  expect(marks().at(-1)).toBe('1 off 400000');
  expect(edda.display.icons).toEqual([]);
});
