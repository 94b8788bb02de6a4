// PAI-2 at the counter: it commits itself before it hears the wearable's nonce, and whoever has said a key or a nonce cannot say
// another: a middleman has one guess.
import { beforeEach, expect, test } from 'vitest';
import { CHIP } from '../../src/link/cipher.js';
import { commitmentOf } from '../../src/link/pairing.js';
import { CounterRig } from '../rig/counter-rig.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';
import { WearableRig } from '../rig/wearable-rig.js';

const OTHER_KEY = Uint8Array.from({ length: 32 }, (_, index) => index + 1);
const OTHER_NONCE = new Uint8Array(16).fill(9);

let saw: CounterRig;
let carla: ToldWearable;
beforeEach(() => {
  saw = new CounterRig(new Site(), 1, 50);
  carla = new ToldWearable(saw, 13);
  carla.touch();
});

function texts(name: 'answer' | 'reveal'): string[] {
  return saw.sentBytes(name).map((bytes) => bytes.join());
}

test('its answer commits it to the nonce that it reveals, and to both keys', () => {
  carla.hello();
  expect(saw.sent('reveal')).toEqual([]);
  carla.sayNonce();
  const [{ publicKey, commitment }, { nonce }] = [saw.sent('answer')[0]!, saw.sent('reveal')[0]!];
  expect(commitment).toEqual(commitmentOf(saw.site.cipher, publicKey, carla.publicKey, nonce));
  expect(saw.display).toMatchObject({ screen: 'digits', value: carla.digits });
});

test('keys, nonces and links are fresh with every pairing', () => {
  carla.hello();
  carla.sayNonce();
  saw.site.runFor(40_000);
  carla.touch();
  carla.hello();
  carla.sayNonce();
  const [one, other] = saw.sent('answer');
  expect(other!.publicKey).not.toEqual(one!.publicKey);
  expect(other!.link).not.toBe(one!.link);
  expect(new Set(texts('reveal')).size).toBe(2);
});

test('a hello that is said again is answered with the same answer; once digits are shown, no more', () => {
  carla.hello();
  carla.hello();
  expect(texts('answer')).toHaveLength(2);
  expect(new Set(texts('answer')).size).toBe(1);
  carla.sayNonce();
  carla.hello();
  expect(texts('answer')).toHaveLength(2);
  expect(saw.refused).toEqual([]);
});

test('a second hello with another key is refused, and the first stands', () => {
  carla.hello();
  carla.hello(OTHER_KEY);
  expect(saw.refused).toEqual(['changed']);
  expect(texts('answer')).toHaveLength(1);
  carla.sayNonce();
  carla.hello(OTHER_KEY);
  expect(saw.refused).toEqual(['changed', 'changed']);
  expect(saw.display).toMatchObject({ screen: 'digits', value: carla.digits });
});

test('a nonce that is said again is revealed again; another one is refused, and the first stands', () => {
  carla.hello();
  carla.sayNonce();
  const { value } = saw.display;
  carla.sayNonce();
  expect(texts('reveal')).toHaveLength(2);
  expect(new Set(texts('reveal')).size).toBe(1);
  carla.sayNonce(OTHER_NONCE);
  expect(saw.refused).toEqual(['changed']);
  expect(texts('reveal')).toHaveLength(2);
  expect(saw.display).toMatchObject({ screen: 'digits', value });
});

test('a nonce before the hello is refused: nothing is revealed before the commitment', () => {
  carla.sayNonce();
  expect(saw.refused).toEqual(['unexpected']);
  expect(saw.sent('reveal')).toEqual([]);
  expect(saw.display.screen).toBe('pairing');
});

test('a public key that every secret makes nothing of is refused, and the right one still pairs', () => {
  carla.hello(new Uint8Array(32));
  expect(saw.refused).toEqual(['changed']);
  expect(saw.sent('answer')).toEqual([]);
  carla.hello();
  carla.sayNonce();
  saw.push();
  carla.accept();
  expect(saw.sessions).toEqual(['opened 1']);
});

test('an accept under another key opens nothing', () => {
  carla.hello();
  carla.sayNonce();
  saw.push();
  carla.accept({ ...carla.agreed, key: new Uint8Array(16) });
  carla.accept({ ...carla.agreed, session: 2 });
  expect(saw.refused).toEqual(['tag', 'tag']);
  saw.site.runFor(30_000);
  expect(saw.sessions).toEqual([]);
  expect(saw.display.screen).toBe('ready');
});

test('an accept before the digits, or of somebody else, or of the counter itself, opens nothing', () => {
  carla.hello();
  expect(() => carla.agreed).toThrow('the counter has not said it yet');
  carla.seal(
    { frame: 'accept', link: carla.answer.link, ...carla.ids, by: 'wearable' },
    { key: new Uint8Array(16), session: 1 },
  );
  carla.sayNonce();
  saw.push();
  const accept = { frame: 'accept', link: carla.answer.link, ...carla.ids, by: 'wearable' } as const;
  carla.seal({ ...accept, wearable: 14 });
  carla.seal({ ...accept, counter: 2 });
  carla.seal({ ...accept, by: 'counter' });
  saw.hear(saw.sentBytes('accept')[0]!);
  expect(saw.refused).toEqual(['foreign', 'foreign', 'foreign', 'unexpected', 'unexpected']);
  expect(saw.sessions).toEqual([]);
});

test('PAI-1: an accept before the push opens nothing yet', () => {
  carla.hello();
  carla.sayNonce();
  carla.accept();
  saw.site.runFor(1_000);
  expect(saw.sessions).toEqual([]);
  saw.push();
  carla.accept();
  expect(saw.sessions).toEqual(['opened 1']);
});

test('with the cipher of a chip: a pairing by hand, and one of two devices, whose tallies are taken', () => {
  const site = new Site(CHIP);
  const drill = new CounterRig(site, 2, 50);
  const dora = new ToldWearable(drill, 14);
  dora.pair();
  dora.acknowledge('notice', 300);
  expect(drill.display).toMatchObject({ second: 36, icons: ['level-notice'] });
  dora.acknowledge('notice', 300, { link: dora.answer.link ^ 1 });
  dora.touch();
  dora.hello(new Uint8Array(32));
  expect(drill.refused).toEqual(['foreign', 'changed']);
  const edda = new WearableRig(site, 11);
  site.runFor(40_000);
  pairUp(drill, edda);
  drill.work(10_000);
  expect(edda.dose).toBe(10_000 * 2500);
  expect(edda.refused).toEqual([]);
});
