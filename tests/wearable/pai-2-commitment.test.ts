// PAI-2 at the wearable: it breaks a pairing off where the counter reveals another nonce than it had committed itself to, and
// whoever has answered cannot answer something else: a middleman has one guess.
import { beforeEach, expect, test } from 'vitest';
import { CHIP } from '../../src/link/cipher.js';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

const OTHER_KEY = Uint8Array.from({ length: 32 }, (_, index) => index + 1);
const OTHER_NONCE = new Uint8Array(16).fill(9);

let site: Site;
let edda: WearableRig;
let saw: ToldCounter;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
  saw = new ToldCounter(edda, 1, 7);
  saw.touch();
});

test('a hello is said again every second until it is answered, a nonce until the counter has revealed its own', () => {
  site.runFor(3_500);
  expect(edda.sent('hello')).toHaveLength(4);
  expect(edda.sent('nonce')).toEqual([]);
  saw.answer();
  site.runFor(3_500);
  expect(edda.sent('hello')).toHaveLength(4);
  expect(edda.sent('nonce')).toHaveLength(4);
  saw.reveal();
  site.runFor(3_500);
  expect(edda.sent('nonce')).toHaveLength(4);
  for (const name of ['hello', 'nonce'] as const) {
    expect(new Set(edda.sentBytes(name).map((bytes) => bytes.join())).size).toBe(1);
  }
});

test('the digits come from what both have said', () => {
  saw.answer();
  expect(edda.display).toMatchObject({ screen: 'pairing', value: -1 });
  saw.reveal();
  expect(edda.display).toMatchObject({ screen: 'digits', value: saw.digits });
});

test('keys and nonces are fresh with every pairing', () => {
  saw.answer();
  site.runFor(40_000);
  saw.touch();
  saw.answer();
  expect(new Set(edda.sent('hello').map(({ publicKey }) => publicKey.join())).size).toBe(2);
  const [first, last] = [edda.sent('nonce')[0]!, edda.sent('nonce').at(-1)!];
  expect(last.nonce).not.toEqual(first.nonce);
});

test('another nonce than the one committed to ends the pairing at once', () => {
  saw.answer();
  saw.reveal(OTHER_NONCE);
  expect(edda.refused).toEqual(['commitment']);
  expect(edda.display.screen).toBe('ready');
  saw.reveal();
  edda.tap();
  expect(edda.refused).toEqual(['commitment', 'foreign']);
  site.runFor(30_000);
  expect(edda.sent('accept')).toEqual([]);
  expect(edda.shifts).toEqual([]);
});

test('once digits are shown another nonce changes nothing', () => {
  saw.answer();
  saw.reveal();
  saw.reveal(OTHER_NONCE);
  saw.reveal();
  expect(edda.refused).toEqual(['commitment']);
  expect(edda.display).toMatchObject({ screen: 'digits', value: saw.digits });
  edda.tap();
  saw.accept();
  expect(edda.sent('accept')).toHaveLength(1);
});

test('a nonce before the answer is refused', () => {
  saw.reveal();
  expect(edda.refused).toEqual(['unexpected']);
  expect(edda.display.screen).toBe('pairing');
});

test.each([
  ['key', { publicKey: OTHER_KEY }],
  ['commitment', { commitment: OTHER_NONCE }],
  ['link', { link: 8 }],
  ['session', { session: 2 }],
])('an answer with another %s than the first is refused, and the first stands', (_, other) => {
  saw.answer();
  saw.answer();
  expect(edda.refused).toEqual([]);
  saw.answer(other);
  expect(edda.refused).toEqual(['changed']);
  saw.reveal();
  saw.answer(other);
  expect(edda.refused).toEqual(['changed', 'changed']);
  expect(edda.display).toMatchObject({ screen: 'digits', value: saw.digits });
});

test('a public key that every secret makes nothing of is refused, and the right one still pairs', () => {
  saw.answer({ publicKey: new Uint8Array(32) });
  expect(edda.refused).toEqual(['changed']);
  expect(edda.sent('nonce')).toEqual([]);
  saw.answer();
  saw.reveal();
  edda.tap();
  saw.accept();
  expect(edda.sent('accept')).toHaveLength(1);
});

test('an accept under another key keeps none', () => {
  saw.answer();
  saw.reveal();
  edda.tap();
  saw.accept({ ...saw.secured, key: new Uint8Array(16) });
  saw.accept({ ...saw.secured, session: 2 });
  expect(edda.refused).toEqual(['tag', 'tag']);
  site.runFor(30_000);
  expect(edda.sent('accept')).toEqual([]);
  expect(edda.paired).toEqual([]);
});

test('an accept before the digits, or of somebody else, or of the wearable itself, keeps none', () => {
  const accept = { frame: 'accept', link: saw.link, ...saw.ids, by: 'counter' } as const;
  saw.seal(accept, { key: new Uint8Array(16), session: 1 });
  saw.answer();
  saw.reveal();
  edda.tap();
  saw.seal({ ...accept, wearable: 12 });
  saw.seal({ ...accept, by: 'wearable' });
  saw.seal({ ...accept, counter: 2 });
  expect(edda.refused.slice(0, 3)).toEqual(['foreign', 'foreign', 'unexpected']);
  expect(edda.sent('accept')).toEqual([]);
  expect(edda.paired).toEqual([]);
});

test('a touch of another counter while one is paired changes nothing of it', () => {
  saw.answer();
  saw.reveal();
  const drill = new ToldCounter(edda, 2, 9);
  drill.touch();
  expect(edda.sent('refuse').at(-1)).toMatchObject({ counter: 2, reason: 'busy' });
  drill.answer();
  expect(edda.refused).toEqual(['foreign']);
  expect(edda.display).toMatchObject({ screen: 'digits', value: saw.digits });
});

test('with the cipher of a chip: a pairing and its tallies; another nonce, another key and a bad tag are refused', () => {
  const chip = new WearableRig(new Site(CHIP), 12);
  toldSession(chip, 1, 7).tell({ dose: 5 });
  expect(chip.dose).toBe(5);
  const drill = new ToldCounter(chip, 2, 9);
  drill.touch();
  drill.answer({ publicKey: new Uint8Array(32) });
  drill.answer();
  drill.reveal(OTHER_NONCE);
  const tally = toldSession(chip, 3, 10).make({ dose: 6 });
  tally.bytes[20]! ^= 1;
  chip.hear(tally.bytes);
  expect(chip.refused).toEqual(['changed', 'commitment', 'tag']);
  expect(chip.dose).toBe(5);
});
