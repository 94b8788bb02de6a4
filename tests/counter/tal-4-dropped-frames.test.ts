// TAL-4, TAL-7 at the counter: forged, altered, replayed and foreign frames are dropped, counted by reason, and change nothing.
import { beforeEach, expect, test } from 'vitest';
import { RandomStream } from '../../sim/kernel/random.js';
import { ATTACKS, attack, hear, newAttacker } from '../../sim/radio/attacker.js';
import { sealMessage, writePairing } from '../../src/link/frames.js';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { changed, resealed, rewritten } from '../rig/hostile.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';

let site: Site;
let saw: CounterRig;
let carla: ToldWearable;
/** One that would be taken. */
let ack: Uint8Array;
beforeEach(() => {
  site = new Site();
  saw = new CounterRig(site, 1, 50);
  carla = new ToldWearable(saw, 13);
  carla.pair();
  saw.work(3_000);
  carla.acknowledge('notice', 300);
  ack = sealMessage(site.cipher, carla.secured!, carla.acknowledgement('action', 3000));
});

/** All that decides how it goes on, but for the count of wrong tags. */
function insideOf(counter: CounterRig): string {
  return JSON.stringify(counter.inside(), (name, value) => (name === 'badTags' ? 0 : value));
}

const clear = (reason: 'busy' | 'full') => writePairing({ frame: 'refuse', counter: 1, wearable: 13, reason });

test.each([
  ['nothing', () => Uint8Array.of(), 'length'],
  ['a byte short', () => ack.subarray(0, ack.length - 1), 'length'],
  ['a byte long', () => Uint8Array.of(...ack, 0), 'length'],
  ['300 bytes', () => new Uint8Array(300).fill(ack[0]!), 'length'],
  ['another version', () => changed(ack, 0, 0b010), 'version'],
  ['an unknown kind', () => Uint8Array.of((30 << 3) | (ack[0]! & 7), ...ack.subarray(1)), 'kind'],
  ['link 0', () => Uint8Array.of(ack[0]!, 0, 0, ...ack.subarray(3)), 'malformed'],
  ['sequence 0', () => Uint8Array.of(...ack.subarray(0, 3), 0, 0, 0, 0, ...ack.subarray(7)), 'malformed'],
  ['level 7, sealed rightly', () => resealed(site.cipher, carla.secured!, ack, 8, 0b1010_0000), 'malformed'],
  ['reserved bits, sealed rightly', () => resealed(site.cipher, carla.secured!, ack, 8, 1), 'malformed'],
  ['a refusal for no reason', () => rewritten(clear('busy'), 5, 0x40), 'malformed'],
  ['counter 0', () => rewritten(clear('busy'), 2, 1), 'malformed'],
  ['a bit error in a clear frame', () => changed(clear('full'), 4, 1), 'checksum'],
  ['a bit error in the sequence', () => changed(ack, 6, 0x40), 'tag'],
  ['a bit error in the body', () => changed(ack, 9, 1), 'tag'],
  ['a bit error in the tag', () => changed(ack, ack.length - 1, 0x80), 'tag'],
  ['the link of somebody else', () => changed(ack, 2, 1), 'foreign'],
  ['a refusal while nothing is paired', () => clear('busy'), 'foreign'],
  ['a hello without a touch', () => carlaSays('hello'), 'foreign'],
  ['an accept without a pairing', () => accept(), 'unexpected'],
  ['its own tally', () => saw.sentBytes('tally')[0]!, 'unexpected'],
  ['a report', () => Uint8Array.of(0x11, ...saw.sentBytes('tally')[0]!.subarray(1)), 'unexpected'],
] as const)('%s is dropped and changes nothing', (_, make, reason) => {
  const frame = make();
  const before = insideOf(saw);
  const shown = saw.shown.length;
  saw.hear(frame);
  expect(saw.refused).toEqual([reason]);
  expect(insideOf(saw)).toBe(before);
  expect(saw.shown).toHaveLength(shown);
  // The one that it was made of is still taken.
  saw.hear(ack);
  expect(saw.refused).toHaveLength(1);
  expect(saw.display.icons).toContain('level-action');
});

function carlaSays(what: 'hello'): Uint8Array {
  return writePairing({ frame: what, ...carla.ids, publicKey: carla.publicKey });
}

function accept(): Uint8Array {
  const message = { frame: 'accept', link: carla.answer.link, ...carla.ids, by: 'wearable' } as const;
  return sealMessage(site.cipher, carla.secured!, message);
}

test('an acknowledgement that was heard before, or an older one, is replayed', () => {
  saw.hear(ack);
  const before = insideOf(saw);
  saw.hear(ack);
  carla.acknowledge('limit', 0, { sequence: 1 });
  expect(saw.refused).toEqual(['replayed', 'replayed']);
  expect(insideOf(saw)).toBe(before);
});

test('frames of a pairing with other devices are foreign, also while one is open', () => {
  carla.touch();
  const other = { counter: saw.id, wearable: 14 };
  carla.say({ frame: 'hello', ...other, publicKey: carla.publicKey });
  carla.say({ frame: 'hello', counter: 2, wearable: 13, publicKey: carla.publicKey });
  carla.say({ frame: 'refuse', ...other, reason: 'busy' });
  carla.say({ frame: 'reveal', ...carla.ids, nonce: carla.nonce });
  carla.say({ ...saw.sent('answer').at(-1)! });
  expect(saw.refused).toEqual(['foreign', 'foreign', 'foreign', 'unexpected', 'unexpected']);
  expect(saw.display.screen).toBe('pairing');
});

test('TAL-7: sixty wrong tags, and sealed frames are dropped unread for the rest of the minute; then they are taken again', () => {
  for (let sent = 0; sent < 60; sent++) saw.hear(changed(ack, 9, 1));
  saw.hear(ack);
  expect(saw.refused.filter((reason) => reason === 'tag')).toHaveLength(60);
  expect(saw.refused.at(-1)).toBe('throttled');
  expect(saw.display.icons).toContain('level-notice');
  site.runFor(59_000);
  saw.hear(ack);
  expect(saw.refused.at(-1)).toBe('throttled');
  site.runFor(2_000);
  saw.hear(ack);
  expect(saw.display.icons).toContain('level-action');
  expect(saw.refused).toHaveLength(62);
});

test('TAL-7: frames for links of nobody use up no tries, and clear frames are not held up', () => {
  for (let sent = 0; sent < 100; sent++) saw.hear(changed(ack, 2, 1));
  saw.hear(ack);
  expect(saw.display.icons).toContain('level-action');
  for (let sent = 0; sent < 100; sent++) saw.hear(changed(ack, 9, 1));
  carla.touch();
  carla.hello();
  expect(saw.sent('answer')).toHaveLength(2);
});

test('an attacker with thousands of frames of every kind changes nothing, and nothing throws', () => {
  const crew = newCrew();
  const random = RandomStream.named(7, 'attack on a counter');
  const attacker = newAttacker(crew.saw.id, crew.edda.id);
  crew.site.air = ({ bytes, to }) => {
    hear(attacker, { bytes, to });
    return [5];
  };
  pairUp(crew.saw, crew.edda);
  crew.saw.work(60_000);
  pairUp(crew.saw, crew.edda);
  crew.saw.work(60_000);
  for (const how of ATTACKS) {
    for (let made = 0; made < 2_000; made++) {
      const frame = attack(attacker, how, random)!;
      if (frame.to !== crew.saw.id) continue;
      const before = insideOf(crew.saw);
      const refused = crew.saw.refused.length;
      crew.saw.hear(frame.bytes);
      expect(insideOf(crew.saw)).toBe(before);
      expect(crew.saw.refused).toHaveLength(refused + 1);
      if (made % 50 === 0) crew.site.runFor(61_000);
    }
  }
  expect(new Set(crew.saw.refused).size).toBeGreaterThanOrEqual(7);
});
