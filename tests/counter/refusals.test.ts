// PAI-1: a touch that is refused, and a pairing that a start of the tool aborts; each is said, and leaves all as before.
import { beforeEach, expect, test } from 'vitest';
import { CounterRig, WORK_MM } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { touch } from '../rig/pair-up.js';

const ANSWERED_MS = 20;

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
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

test('a running tool refuses the touch, and says so on both', () => {
  saw.level(WORK_MM);
  site.runFor(200);
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect(saw.display).toMatchObject({ screen: 'refused-running', value: -1, second: -1 });
  expect(edda.display).toMatchObject({ screen: 'refused-running', value: -1 });
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

test('a second touch of the same two is refused as well: it ends their pairing, and both say so', () => {
  touched();
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect(saw.display).toMatchObject({ screen: 'refused-busy', value: -1, second: -1 });
  expect(edda.display).toMatchObject({ screen: 'refused-busy', value: -1 });
  site.runFor(30_000);
  expectAsBefore();
  touched();
});

test('a counter that is being set refuses a touch, and setting goes on', () => {
  saw.hold();
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen]).toEqual(['setting', 'refused-busy']);
});
