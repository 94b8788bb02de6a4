// WEA-2, ACC-3: each alert comes with the first accepted tally at or past its level, to the last u.
import { beforeEach, expect, test } from 'vitest';
import type { Level } from '../../src/wearable/levels.js';
import { MINUTE } from '../rig/day.js';
import { LEVELS, POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { type ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
let saw: ToldSession;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
  saw = toldSession(edda);
});

function withLevels(...levels: Level[]): void {
  edda = new WearableRig(site, 12, levels);
  saw = toldSession(edda);
}

/** "action" is the first call of that level, "action again" a later one. */
function calls(): string[] {
  return edda.alerts.map(({ level, again }) => (again === 0 ? level : `${level} again`));
}

test('an alert comes with the first tally at its level, and none before', () => {
  saw.tell({ dose: 80 * POINT - 1 });
  expect(calls()).toEqual([]);
  saw.tell({ dose: 80 * POINT });
  expect(edda.alerts).toEqual([{ atMs: site.nowMs, level: 'notice', again: 0 }]);
  expect(edda.display.icons).toEqual(['level-notice']);
});

test('ACC-3: 99.99 points show 99 and alert nothing', () => {
  withLevels({ level: 'action', points: 100, compare: 'reached' });
  saw.tell({ dose: 99.99 * POINT });
  expect(edda.display).toMatchObject({ value: 99, icons: [] });
  expect(calls()).toEqual([]);
  saw.tell({ dose: 100 * POINT - 1 });
  expect(edda.display.value).toBe(99);
  expect(calls()).toEqual([]);
});

test('ACC-3: exactly 100 points alert where reaching is enough', () => {
  withLevels({ level: 'action', points: 100, compare: 'reached' });
  saw.tell({ dose: 100 * POINT });
  expect(edda.display).toMatchObject({ value: 100, icons: ['level-action'] });
  expect(calls()).toEqual(['action']);
});

test('ACC-3: exactly 100 points alert nothing where they must be exceeded; one u more does', () => {
  withLevels({ level: 'action', points: 100, compare: 'exceeded' });
  saw.tell({ dose: 100 * POINT });
  expect(edda.display).toMatchObject({ value: 100, icons: [] });
  expect(calls()).toEqual([]);
  saw.tell({ dose: 100 * POINT + 1 });
  expect(calls()).toEqual(['action']);
});

test('every level passed at once is called, lowest first; the site has a limit of its own', () => {
  withLevels(...LEVELS, { level: 'site', points: 200, compare: 'reached' });
  saw.tell({ dose: 401 * POINT });
  expect(calls()).toEqual(['notice', 'action', 'site', 'limit']);
  expect(edda.display.icons).toEqual(['level-limit']);
});

test('a tally past a level that was called calls it no second time', () => {
  saw.tell({ dose: 80 * POINT });
  edda.tap();
  saw.tell({ dose: 90 * POINT });
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice']);
});

test('a new shift begins with no level passed, and ends the calls of the old one', () => {
  saw.tell({ dose: 100 * POINT });
  edda.close();
  expect(edda.display.icons).toEqual(['level-action']);
  const drill = toldSession(edda, 2);
  expect(edda.display).toMatchObject({ value: 0, icons: [] });
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice', 'action']);
  drill.tell({ dose: 80 * POINT });
  expect(calls()).toEqual(['notice', 'action', 'notice']);
});

test('late dose of a shift that is over calls nothing in the new one', () => {
  saw.tell({ dose: 79 * POINT });
  edda.close();
  toldSession(edda, 2);
  saw.tell({ dose: 160 * POINT, flags: ['sealed'] });
  expect(calls()).toEqual([]);
  expect(edda.display).toMatchObject({ value: 0, icons: [] });
});

test('the level in an acknowledgement is the highest passed, the points left those to the next, none past the last', () => {
  saw.tell({ dose: 0 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ level: 0, leftTenths: 800 });
  saw.tell({ dose: 80 * POINT + 1 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ level: 1, leftTenths: 199 });
  saw.tell({ dose: 100 * POINT });
  expect(edda.sent('ack').at(-1)).toMatchObject({ level: 2, leftTenths: 3000 });
  saw.tell({ dose: 400 * POINT });
  expect(edda.sent('ack').at(-1)).toMatchObject({ level: 2, leftTenths: 0 });
  saw.tell({ dose: 400 * POINT + 1 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ level: 4, leftTenths: 0 });
});
