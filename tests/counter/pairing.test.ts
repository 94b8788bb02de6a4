// PAI-1, PAI-3, PAI-5 at the pair of them: what opens a session, and all that leaves both as before.
import { beforeEach, expect, test } from 'vitest';
import { CounterRig, WORK_MM } from '../rig/counter-rig.js';
import { pairUp, touch } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

const ANSWERED_MS = 20;

let site: Site;
let saw: CounterRig;
let edda: WearableRig;
let bram: WearableRig;
beforeEach(() => {
  site = new Site();
  saw = new CounterRig(site, 1, 50);
  edda = new WearableRig(site, 11);
  bram = new WearableRig(site, 12);
});

/** Touched, with the digits on both. */
function touched(): void {
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen]).toEqual(['digits', 'digits']);
}

function expectAsBefore(): void {
  expect(saw.sessions).toEqual([]);
  expect(saw.observe().session).toBe(0);
  expect(edda.shifts).toEqual([]);
  expect([saw.display.screen, edda.display.screen]).toEqual(['ready', 'ready']);
}

test('a touch shows the same four digits on both', () => {
  touched();
  expect(saw.display.value).toBe(edda.display.value);
  expect(saw.display.value).toBeGreaterThanOrEqual(0);
  expect(saw.display.value).toBeLessThanOrEqual(9999);
});

test('other pairings show other digits', () => {
  touched();
  const first = saw.display.value;
  site.runFor(40_000);
  touched();
  expect(saw.display.value).not.toBe(first);
});

test.each([
  ['push, then tap', () => [saw.push(), site.runFor(1500), edda.tap()]],
  ['tap, then push', () => [edda.tap(), site.runFor(1500), saw.push()]],
])('%s: the session opens, and the shift with it', (_, accept) => {
  touched();
  accept();
  site.runFor(1100);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(saw.observe().session).toBe(1);
  expect(edda.shifts.map(({ what }) => what)).toEqual(['opened 1']);
  expect(edda.display).toMatchObject({ screen: 'points', value: 0 });
  expect(saw.display.screen).toBe('ready');
});

test('a push alone opens nothing', () => {
  touched();
  saw.push();
  site.runFor(30_000);
  expectAsBefore();
});

test('a tap alone opens nothing', () => {
  touched();
  edda.tap();
  site.runFor(30_000);
  expectAsBefore();
});

test('a touch opens pairing for 30 s, and not longer', () => {
  saw.touch(edda.id);
  site.runFor(29_999);
  expect(saw.display.screen).toBe('pairing');
  site.runFor(1);
  expect(saw.display.screen).toBe('ready');
});

test('the same at the wearable', () => {
  edda.touch(saw.id);
  site.runFor(29_999);
  expect(edda.display.screen).toBe('pairing');
  site.runFor(1);
  expect(edda.display.screen).toBe('ready');
});

test('the digits stand for 20 s: a push and a tap in the last of them pair, later ones do not', () => {
  touched();
  const shownMs = saw.display.atMs;
  edda.tap();
  site.runTo(shownMs + 19_900);
  saw.push();
  site.runFor(99);
  expect(saw.sessions).toEqual(['opened 1']);

  site.runTo(100_000);
  touch(saw, bram);
  site.runFor(ANSWERED_MS);
  bram.tap();
  site.runTo(saw.display.atMs + 20_000);
  expect(saw.display.screen).toBe('ready');
  saw.push();
  site.runFor(30_000);
  expect(saw.sessions).toEqual(['opened 1']);
});

test('a hold of the ring accepts nothing, a turn neither', () => {
  touched();
  edda.tap();
  saw.hold();
  saw.turn(1);
  site.runFor(30_000);
  expectAsBefore();
});

test('a running tool refuses the touch, and says so on both', () => {
  saw.level(WORK_MM);
  site.runFor(200);
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen]).toEqual(['refused-running', 'refused-running']);
  site.runFor(3_000);
  expect([saw.display.screen, edda.display.screen]).toEqual(['ready', 'ready']);
});

test.each(['touched', 'pushed', 'tapped', 'pushed and tapped'])('a start of the tool aborts it when %s', (done) => {
  touched();
  site.runTo(100);
  saw.level(WORK_MM);
  site.runFor(190);
  // The counter's last accept is on its way when the start is confirmed.
  if (done.includes('tapped')) edda.tap();
  if (done.includes('pushed')) saw.push();
  site.runFor(10);
  expect(saw.display.screen).toBe('ready');
  site.runFor(10);
  expect(edda.display.screen).toBe(done === 'pushed and tapped' ? 'ready' : 'refused-running');
  site.runFor(30_000);
  expectAsBefore();
});

test('two wearables at one counter: the second is refused and told, the first goes on', () => {
  touched();
  touch(saw, bram);
  site.runFor(ANSWERED_MS);
  expect(bram.display.screen).toBe('refused-busy');
  edda.tap();
  saw.push();
  site.runFor(1000);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(edda.shifts).toHaveLength(1);
  expect(bram.shifts).toHaveLength(0);
});

test('two counters at one wearable: the second is refused and says so, the first goes on', () => {
  const drill = new CounterRig(site, 2, 50);
  touched();
  touch(drill, edda);
  site.runFor(ANSWERED_MS);
  expect(drill.display.screen).toBe('refused-busy');
  expect(edda.display.screen).toBe('digits');
  edda.tap();
  saw.push();
  site.runFor(1000);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(drill.sessions).toEqual([]);
});

test('two touches in the same millisecond: one pairing is open, the other refused', () => {
  saw.touch(edda.id);
  saw.touch(bram.id);
  edda.touch(saw.id);
  bram.touch(saw.id);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen, bram.display.screen]).toEqual(['digits', 'digits', 'refused-busy']);
});

test('a counter that is being set refuses a touch, and setting goes on', () => {
  saw.hold();
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen]).toEqual(['setting', 'refused-busy']);
});

test('lost frames are said again: a pairing comes through an air that loses the first of every kind', () => {
  const heard = new Set<string>();
  site.air = ({ from, message }) => {
    const kind = `${from} ${message.frame}`;
    if (heard.has(kind)) return [5];
    heard.add(kind);
    return [];
  };
  touch(saw, edda);
  site.runFor(5000);
  expect([saw.display.screen, edda.display.screen]).toEqual(['digits', 'digits']);
  saw.push();
  edda.tap();
  site.runFor(5000);
  expect(saw.sessions).toEqual(['opened 1']);
  site.runFor(60_000);
  expect(edda.shifts).toHaveLength(1);
});

test('where the last message is lost, the counter is as before and the key charges nothing', () => {
  touched();
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'accept' ? [] : [5]);
  edda.tap();
  saw.push();
  site.runFor(40_000);
  expect(edda.sent('accept').length).toBeGreaterThan(0);
  expectAsBefore();

  site.air = () => [5];
  saw.work(60_000);
  site.runFor(300_000);
  expect(edda.ledger).toEqual([]);
  expect(edda.marks).toEqual([]);
  expect(saw.observe()).toMatchObject({ session: 0, triggerWindows: 600 });

  // The same two can pair afterwards, and what is counted from then on is charged once.
  pairUp(saw, edda);
  saw.work(10_000);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(edda.dose).toBe(100 * 100 * 2500);
});

test('PAI-3: a pairing seals the session and opens the next; numbers only grow', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  pairUp(saw, bram);
  saw.work(20_000);
  pairUp(saw, edda);
  saw.work(30_000);
  expect(saw.sessions.filter((what) => what.startsWith('opened'))).toEqual(['opened 1', 'opened 2', 'opened 3']);
  expect(edda.dose).toBe(400 * 100 * 2500);
  expect(bram.dose).toBe(200 * 100 * 2500);
});

test('PAI-3: an aborted pairing takes no number and seals nothing', () => {
  pairUp(saw, edda);
  touch(saw, bram);
  site.runFor(40_000);
  expect(saw.sessions).toEqual(['opened 1']);
  pairUp(saw, bram);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'opened 2', 'delivered 1']);
});
