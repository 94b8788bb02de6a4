// WEA-2: an alert is repeated until a tap, and past the limit for as long as a paired tool runs.
import { beforeEach, expect, test } from 'vitest';
import { MINUTE } from '../rig/day.js';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
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

/** "action" is the first call of that level, "action again" a later one. */
function calls(): string[] {
  return edda.alerts.map(({ level, again }) => (again === 0 ? level : `${level} again`));
}

/** A pairing comes as far as its digits. */
function showDigits(): void {
  const drill = new ToldCounter(edda, 2, 77);
  drill.touch();
  drill.answer();
  drill.reveal();
  expect(edda.display.screen).toBe('digits');
}

test('an alert is repeated until a tap acknowledges it', () => {
  saw.tell({ dose: 80 * POINT });
  site.runFor(2 * AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again', 'notice again']);
  expect(edda.alerts.map(({ again }) => again)).toEqual([0, 1, 2]);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(3);
});

test('an alert that nobody tapped goes on when the tool stops', () => {
  saw.tell({ dose: 80 * POINT, flags: ['running'] });
  saw.tell({ flags: [] });
  site.runFor(2 * AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again', 'notice again']);
  // The same in the next shift, whatever was tapped in this one.
  edda.tap();
  edda.close();
  const drill = toldSession(edda, 2);
  drill.tell({ dose: 80 * POINT, flags: ['running'] });
  drill.tell({ flags: [] });
  site.runFor(2 * AGAIN_MS);
  expect(calls().slice(3)).toEqual(['notice', 'notice again', 'notice again']);
});

test('the next level is called though the last was acknowledged, and repeated in its turn', () => {
  saw.tell({ dose: 80 * POINT });
  site.runFor(AGAIN_MS);
  edda.tap();
  saw.tell({ dose: 100 * POINT });
  site.runFor(AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again', 'action', 'action again']);
  expect(edda.alerts.at(-1)!.again).toBe(1);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(4);
});

test('a level passed while another is still called is repeated 30 s after its own call', () => {
  saw.tell({ dose: 80 * POINT });
  const firstMs = site.nowMs;
  site.runFor(20_000);
  saw.tell({ dose: 100 * POINT });
  site.runFor(40_000);
  expect(edda.alerts.map(({ atMs }) => atMs - firstMs)).toEqual([0, 20_000, 50_000]);
});

test('a tap that accepts digits acknowledges no alert, not even a second one', () => {
  saw.tell({ dose: 80 * POINT });
  showDigits();
  edda.tap();
  edda.tap();
  site.runFor(AGAIN_MS);
  expect(calls()).toEqual(['notice', 'notice again']);
});

test('a tap after a pairing that came to nothing is for the alert again', () => {
  saw.tell({ dose: 80 * POINT });
  showDigits();
  site.runFor(20_000);
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice']);
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
  expect(edda.alerts.at(-1)!.atMs).toBe(site.nowMs);
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

test('a session that was sealed while its tool ran runs no more for its wearer', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  edda.tap();
  saw.tell({ flags: ['running', 'sealed'] });
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice', 'action', 'limit']);
});

test('a key that no tally has confirmed runs nothing', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  new ToldSession(edda, 2, 7);
  saw.tell({ flags: [] });
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice', 'action', 'limit']);
});

test('a counter that has fallen silent is not known to run: the acknowledged call of the limit ends', () => {
  saw.tell({ dose: 401 * POINT, flags: ['running'] });
  edda.tap();
  site.runFor(10 * MINUTE);
  expect(calls()).toEqual(['notice', 'action', 'limit']);
});
