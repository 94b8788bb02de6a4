// TAL-4, TAL-7 at the wearable: forged, altered, replayed and foreign frames are dropped, counted by reason, and change nothing.
import { beforeEach, expect, test } from 'vitest';
import { RandomStream } from '../../sim/kernel/random.js';
import { ATTACKS, attack, hear, newAttacker } from '../../sim/radio/attacker.js';
import { sealMessage, writePairing } from '../../src/link/frames.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { changed, resealed, rewritten } from '../rig/hostile.js';
import { POINT } from '../rig/levels.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { type ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
let saw: ToldSession;
/** One that would be taken. */
let tally: Uint8Array;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
  saw = toldSession(edda, 1, 7);
  saw.tell({ dose: POINT });
  tally = saw.make({ dose: 2 * POINT }).bytes;
});

/** All that decides how it goes on, but for the count of wrong tags. */
function insideOf(wearable: WearableRig): string {
  return JSON.stringify(wearable.inside(), (name, value) => (name === 'badTags' ? 0 : value));
}

const refuse = (): Uint8Array => writePairing({ frame: 'refuse', counter: 1, wearable: 11, reason: 'busy' });
const resealedTally = (at: number, bits: number) => () => resealed(site.cipher, saw.secured, tally, at, bits);

// Of a tally's body: 52 bits dose, 28 windows, 28 unrated (bytes 10 to 13), 9 magnitude (from bit 4 of byte 13), 2 cell, 9 flags.
test.each([
  ['nothing', () => Uint8Array.of(), 'length'],
  ['a byte short', () => tally.subarray(0, tally.length - 1), 'length'],
  ['a byte long', () => Uint8Array.of(...tally, 0), 'length'],
  ['300 bytes', () => new Uint8Array(300).fill(tally[0]!), 'length'],
  ['another version', () => changed(tally, 0, 0b010), 'version'],
  ['an unknown kind', () => Uint8Array.of((30 << 3) | (tally[0]! & 7), ...tally.subarray(1)), 'kind'],
  ['link 0', () => Uint8Array.of(tally[0]!, 0, 0, ...tally.subarray(3)), 'malformed'],
  ['sequence 0', () => Uint8Array.of(...tally.subarray(0, 3), 0, 0, 0, 0, ...tally.subarray(7)), 'malformed'],
  ['more unrated than trigger time, sealed rightly', resealedTally(12, 1), 'malformed'],
  ['a magnitude of 51.1, sealed rightly', () => resealedAs(511), 'malformed'],
  ['a magnitude of 0.4, sealed rightly', () => resealedAs(4), 'malformed'],
  ['an unknown flag, sealed rightly', resealedTally(14, 0x01), 'malformed'],
  ['a refusal for no reason', () => rewritten(refuse(), 5, 0x40), 'malformed'],
  ['a bit error in a clear frame', () => changed(refuse(), 4, 1), 'checksum'],
  ['a bit error in the sequence', () => changed(tally, 6, 0x40), 'tag'],
  ['a bit error in the dose', () => changed(tally, 9, 1), 'tag'],
  ['a bit error in the tag', () => changed(tally, tally.length - 1, 0x80), 'tag'],
  ['a report with the body of a tally', () => Uint8Array.of(0x11, ...tally.subarray(1)), 'tag'],
  ['the link of somebody else', () => changed(tally, 2, 1), 'foreign'],
  ['a refusal while nothing is paired', () => refuse(), 'foreign'],
  ['a reveal while nothing is paired', () => reveal(), 'foreign'],
  ['an accept for another wearable', () => accept(12), 'foreign'],
  ['its own acknowledgement', () => edda.sentBytes('ack')[0]!, 'unexpected'],
  ['its own accept', () => edda.sentBytes('accept')[0]!, 'unexpected'],
  ['a hello', () => edda.sentBytes('hello')[0]!, 'unexpected'],
  ['a nonce', () => edda.sentBytes('nonce')[0]!, 'unexpected'],
] as const)('%s is dropped and changes nothing', (_, make, reason) => {
  const frame = make();
  const before = insideOf(edda);
  const [shown, sent] = [edda.shown.length, site.frames.length];
  edda.hear(frame);
  expect(edda.refused).toEqual([reason]);
  expect(insideOf(edda)).toBe(before);
  expect(edda.shown).toHaveLength(shown);
  expect(site.frames).toHaveLength(sent);
  // The one that it was made of is still taken.
  edda.hear(tally);
  expect(edda.refused).toHaveLength(1);
  expect(edda.dose).toBe(2 * POINT);
});

/** The tally, which says 5.0 m/s², with another magnitude: of its nine bits five are in the byte that follows. */
function resealedAs(tenths: number): Uint8Array {
  const bits = tenths ^ 50;
  const high = resealed(site.cipher, saw.secured, tally, 13, bits >> 5);
  return resealed(site.cipher, saw.secured, high, 14, (bits & 31) << 3);
}

function reveal(): Uint8Array {
  return writePairing({ frame: 'reveal', counter: 1, wearable: 11, nonce: new Uint8Array(16) });
}

function accept(wearable: number): Uint8Array {
  const message = { frame: 'accept', link: 7, counter: 1, wearable, by: 'counter' } as const;
  return sealMessage(site.cipher, saw.secured, message);
}

test('a tally or a report with a lower number than the highest is replayed', () => {
  const report = saw.report(9).bytes;
  const older = saw.make({ sequence: 3, dose: 3 * POINT });
  const newer = saw.make({ sequence: 10, dose: 2 * POINT });
  saw.hear(newer);
  saw.report(10);
  const before = insideOf(edda);
  edda.hear(older.bytes);
  edda.hear(report);
  expect(edda.refused).toEqual(['replayed', 'replayed']);
  expect(insideOf(edda)).toBe(before);
  expect(edda.dose).toBe(2 * POINT);
});

test('frames of a pairing with other devices are foreign, also while one is open', () => {
  const drill = new ToldCounter(edda, 2, 9);
  drill.touch();
  const answer = { link: 5, session: 1, publicKey: drill.publicKey, commitment: new Uint8Array(16) };
  drill.say({ frame: 'answer', counter: 3, wearable: 11, ...answer });
  drill.say({ frame: 'answer', counter: 2, wearable: 12, ...answer });
  drill.say({ frame: 'refuse', counter: 3, wearable: 11, reason: 'busy' });
  expect(edda.refused).toEqual(['foreign', 'foreign', 'foreign']);
  expect(edda.display.screen).toBe('pairing');
  expect(edda.sent('nonce').filter(({ counter }) => counter !== 1)).toEqual([]);
});

test('TAL-7: sixty wrong tags, and sealed frames are dropped unread for the rest of the minute; then they are taken again', () => {
  for (let sent = 0; sent < 60; sent++) edda.hear(changed(tally, 9, 1));
  edda.hear(tally);
  expect(edda.refused.filter((reason) => reason === 'tag')).toHaveLength(60);
  expect(edda.refused.at(-1)).toBe('throttled');
  site.runFor(59_000);
  edda.hear(tally);
  expect(edda.refused.at(-1)).toBe('throttled');
  expect(edda.dose).toBe(POINT);
  site.runFor(1_000);
  edda.hear(tally);
  expect(edda.refused).toHaveLength(62);
  expect(edda.dose).toBe(2 * POINT);
});

test('TAL-7: frames for links of nobody use up no tries, and clear frames are not held up', () => {
  for (let sent = 0; sent < 100; sent++) edda.hear(changed(tally, 2, 1));
  edda.hear(tally);
  expect(edda.dose).toBe(2 * POINT);
  for (let sent = 0; sent < 100; sent++) edda.hear(changed(tally, 9, 1));
  const drill = new ToldCounter(edda, 2, 9);
  drill.touch();
  drill.answer();
  drill.reveal();
  expect(edda.display.screen).toBe('digits');
});

test('an attacker with thousands of frames of every kind changes no dose, shift, alert or display, and nothing throws', () => {
  const calm = dayUnder(0);
  const attacked = dayUnder(2_000);
  expect(attacked.edda.ledger).toEqual(calm.edda.ledger);
  expect(attacked.edda.shifts).toEqual(calm.edda.shifts);
  expect(attacked.edda.incomplete).toEqual(calm.edda.incomplete);
  expect(attacked.edda.shown).toEqual(calm.edda.shown);
  expect(attacked.edda.marks).toEqual(calm.edda.marks);
  expect(new Set(attacked.edda.refused).size).toBeGreaterThanOrEqual(8);
});

/** Two sessions, with so many frames of each kind of attack in a minute's rest after each. */
function dayUnder(attacks: number) {
  const crew = newCrew();
  const random = RandomStream.named(7, 'attack on a wearable');
  const attacker = newAttacker(crew.saw.id, crew.edda.id);
  crew.site.air = ({ bytes, to }) => {
    hear(attacker, { bytes, to });
    return [5];
  };
  for (let session = 0; session < 2; session++) {
    pairUp(crew.saw, crew.edda);
    crew.saw.work(60_000);
    for (const how of ATTACKS) {
      for (let made = 0; made < attacks; made++) {
        const frame = attack(attacker, how, random)!;
        if (frame.to === crew.edda.id) crew.edda.hear(frame.bytes);
      }
      crew.site.runFor(2 * MINUTE);
    }
  }
  return crew;
}
