// WEA-2, ACC-3: each alert with the first accepted tally at or past its level, again until a tap, and past the limit for as
// long as a paired tool runs.
import { beforeEach, expect, test } from 'vitest';
import type { Level } from '../../src/wearable/levels.js';
import { MINUTE } from '../rig/day.js';
import { LEVELS, POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { type ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

const AGAIN_MS = 30_000;

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
  expect(edda.alerts).toEqual([{ atMs: 0, level: 'notice', again: 0 }]);
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

test('an alert is repeated until a tap acknowledges it', () => {
  saw.tell({ dose: 80 * POINT });
  site.runFor(2 * AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again', 'notice again']);
  expect(edda.alerts.map(({ again }) => again)).toEqual([0, 1, 2]);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(3);
});

test('a tally past a level that was called calls it no second time', () => {
  saw.tell({ dose: 80 * POINT });
  edda.tap();
  saw.tell({ dose: 90 * POINT });
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice']);
});

test('the next level is called though the last was acknowledged, and repeated in its turn', () => {
  saw.tell({ dose: 80 * POINT });
  edda.tap();
  saw.tell({ dose: 100 * POINT });
  site.runFor(AGAIN_MS);
  expect(calls()).toEqual(['notice', 'action', 'action again']);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(3);
});

test('a tap that accepts digits acknowledges no alert, not even a second one', () => {
  saw.tell({ dose: 80 * POINT });
  edda.touch(2);
  edda.hear({ frame: 'answer', counter: 2, wearable: edda.id, nonce: 5, link: 77, session: 1 }, 2);
  edda.tap();
  edda.tap();
  site.runFor(AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again']);
});

test('a tap while pairing has no digits yet is for the alert', () => {
  saw.tell({ dose: 80 * POINT });
  edda.touch(2);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice']);
});

test('the limit is called on while a paired tool runs, whatever is tapped', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  for (let told = 0; told < 12; told++) {
    edda.tap();
    site.runFor(10_000);
    saw.tell({ flags: ['running'] });
  }
  expect(calls()).toEqual(['notice', 'action', 'limit', ...Array.from({ length: 4 }, () => 'limit again')]);
  saw.tell({ flags: [] });
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(7);
});

test('past the limit the call begins again the moment a paired tool is heard to run', () => {
  saw.tell({ dose: 401 * POINT });
  edda.tap();
  site.runFor(MINUTE);
  const before = calls().length;
  saw.tell({ flags: ['running'] });
  expect(calls().slice(before)).toEqual(['limit again']);
  expect(edda.alerts.at(-1)!.atMs).toBe(MINUTE);
});

test('past the limit an alert that nobody tapped goes on when the tool stops', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  saw.tell({ flags: [] });
  site.runFor(2 * AGAIN_MS);
  expect(calls().slice(3)).toEqual(['limit again', 'limit again']);
});

test('below the limit a tap ends the call though the tool runs', () => {
  saw.tell({ dose: 101 * POINT, flags: ['running'] });
  edda.tap();
  for (let told = 0; told < 12; told++) {
    site.runFor(10_000);
    saw.tell({ flags: ['running'] });
  }
  expect(calls()).toEqual(['notice', 'action']);
});

test('a counter that has fallen silent is not known to run: the acknowledged call of the limit ends', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice', 'action', 'limit']);
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
  saw.tell({ dose: 500 * POINT, flags: ['sealed'] });
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
