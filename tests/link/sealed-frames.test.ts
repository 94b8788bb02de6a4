// Sealed frames (TAL-1, TAL-2, TAL-4): what is sealed opens as it was, and nothing else does.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { openMessage, peek, readPairing, sealMessage } from '../../src/link/frames.js';
import {
  ACCEPT_BITS,
  ACKNOWLEDGEMENT_BITS,
  KIND_CODES,
  type Layout,
  REPORT_BITS,
  TALLY_BITS,
  VERSION,
} from '../../src/link/layout.js';
import type { SealedMessage } from '../../src/link/pairing-messages.js';
import { counting } from './hex.js';
import * as any from './messages.js';
import { packed, sealedWith, type Values } from './packer.js';

const SECURED = { key: counting(1, 16), session: 7 };

const TALLY: SealedMessage = {
  frame: 'tally',
  link: 0x1234,
  sequence: 99,
  dose: 3_456_000_000,
  triggerWindows: 24_000,
  unratedWindows: 300,
  magnitudeTenths: 120,
  cell: 3,
  flags: 1,
};
const REPORT: SealedMessage = {
  frame: 'report',
  link: 0x1234,
  sequence: 98,
  shortBursts: 2,
  powerLosses: 1,
  unclaimedDose: 144_000_000,
  unclaimedWindows: 100,
};
const ACK: SealedMessage = {
  frame: 'ack',
  link: 0x1234,
  sequence: 5,
  highest: 99,
  highestReport: 98,
  level: 1,
  leftTenths: 208,
  closed: true,
};
const ACCEPTS: readonly SealedMessage[] = [
  { frame: 'accept', link: 0x1234, counter: 3, wearable: 9, by: 'counter' },
  { frame: 'accept', link: 0x1234, counter: 3, wearable: 9, by: 'wearable' },
];
const EACH = [TALLY, REPORT, ACK, ...ACCEPTS];

const PARTS: Readonly<Record<SealedMessage['frame'], { layout: Layout; direction: number }>> = {
  tally: { layout: TALLY_BITS, direction: 0 },
  report: { layout: REPORT_BITS, direction: 0 },
  ack: { layout: ACKNOWLEDGEMENT_BITS, direction: 1 },
  accept: { layout: ACCEPT_BITS, direction: 0 },
};

/** A message's frame as the second way makes it, with fields of one's own. */
function remade(message: SealedMessage, fields: Values = {}, envelope: { link?: number; sequence?: number } = {}) {
  const { frame, link } = message;
  const { layout, direction } = PARTS[frame];
  const fromWearable = message.frame === 'accept' && message.by === 'wearable';
  const kind =
    message.frame !== 'accept'
      ? KIND_CODES[message.frame]
      : KIND_CODES[fromWearable ? 'wearableAccept' : 'counterAccept'];
  const sequence = message.frame === 'accept' ? 0 : message.sequence;
  const values = {
    ...message,
    closed: message.frame === 'ack' && message.closed ? 1 : 0,
    ...fields,
  } as unknown as Values;
  return sealedWith(
    CHIP,
    SECURED,
    { kind, version: VERSION, link, sequence, direction: fromWearable ? 1 : direction, ...envelope },
    packed(layout, values),
  );
}

describe.each([
  ['CHIP', CHIP, 100],
  ['NO_KEYS', NO_KEYS, 1000],
] as const)('%s', (_, cipher, numRuns) => {
  test('every message opens as it was sealed', () => {
    fc.assert(
      fc.property(any.secured, any.sealedMessage, (secured, message) => {
        const frame = sealMessage(cipher, secured, message);
        expect(openMessage(cipher, secured, frame)).toEqual(message);
        expect(frame.length).toBeLessThanOrEqual(27);
        const sequence = message.frame === 'accept' ? 0 : message.sequence;
        expect(peek(frame)).toEqual({ frame: message.frame, link: message.link, sequence });
      }),
      { numRuns },
    );
  });

  test('a frame is a copy of its own, whatever is sealed and opened after it', () => {
    const frame = sealMessage(cipher, SECURED, TALLY);
    const before = frame.slice();
    const opened = openMessage(cipher, SECURED, frame);
    for (const message of EACH) openMessage(cipher, SECURED, sealMessage(cipher, SECURED, message));
    expect(frame).toEqual(before);
    expect(opened).toEqual(TALLY);
  });

  test('no frame with one bit flipped is opened', () => {
    for (const message of EACH) {
      const frame = sealMessage(cipher, SECURED, message);
      for (let bit = 0; bit < frame.length * 8; bit++) {
        const flipped = frame.slice();
        flipped[bit >>> 3]! ^= 0x80 >>> (bit & 7);
        expect(openMessage(cipher, SECURED, flipped), `${message.frame}, bit ${bit}`).toBeTypeOf('string');
      }
    }
  });

  test('a flipped bit of the body or the tag is told by the tag', () => {
    const frame = sealMessage(cipher, SECURED, TALLY);
    for (let bit = 7 * 8; bit < frame.length * 8; bit++) {
      const flipped = frame.slice();
      flipped[bit >>> 3]! ^= 0x80 >>> (bit & 7);
      expect(openMessage(cipher, SECURED, flipped)).toBe('tag');
    }
  });

  test('no frame that is cut or goes on is opened', () => {
    for (const message of EACH) {
      const frame = sealMessage(cipher, SECURED, message);
      for (let length = 0; length < frame.length; length++) {
        expect(openMessage(cipher, SECURED, frame.slice(0, length))).toBe('length');
        expect(peek(frame.slice(0, length))).toBe('length');
      }
      for (let more = 1; more <= 300; more++) {
        expect(openMessage(cipher, SECURED, Uint8Array.of(...frame, ...new Uint8Array(more)))).toBe('length');
      }
    }
  });

  test('a frame is opened by its own key and session alone', () => {
    for (const message of EACH) {
      const frame = sealMessage(cipher, SECURED, message);
      expect(openMessage(cipher, { ...SECURED, session: 8 }, frame)).toBe('tag');
      expect(openMessage(cipher, { ...SECURED, key: counting(2, 17) }, frame)).toBe('tag');
    }
  });
});

test('both ways of making a frame come to the same bytes', () => {
  for (const message of EACH) expect(sealMessage(CHIP, SECURED, message)).toEqual(remade(message));
  fc.assert(
    fc.property(any.sealedMessage, (message) => {
      expect(sealMessage(CHIP, SECURED, message)).toEqual(remade(message));
    }),
    { numRuns: 200 },
  );
});

test('without keys the body is clear, and with them it is not', () => {
  const body = packed(TALLY_BITS, TALLY as unknown as Values);
  expect(sealMessage(NO_KEYS, SECURED, TALLY).slice(7, 23)).toEqual(body);
  expect(sealMessage(CHIP, SECURED, TALLY).slice(7, 23)).not.toEqual(body);
});

test('both sides’ frames of one number differ: the direction is in the nonce', () => {
  const [byCounter, byWearable] = ACCEPTS.map((accept) => sealMessage(CHIP, SECURED, accept).slice(7, 11));
  expect(byCounter).not.toEqual(byWearable);
});

test('unknown versions are refused before anything else is looked at', () => {
  for (const first of Array.from({ length: 256 }, (_, byte) => byte)) {
    if ((first & 7) === VERSION) continue;
    for (const length of [1, 10, 15, 18, 22, 27, 63, 300]) {
      const frame = new Uint8Array(length);
      frame[0] = first;
      for (const told of [peek(frame), openMessage(CHIP, SECURED, frame), readPairing(frame)])
        expect(told).toBe('version');
    }
  }
});

test('unknown kinds are refused whatever their length', () => {
  const known: readonly number[] = Object.values(KIND_CODES);
  for (let kind = 0; kind < 32; kind++) {
    if (known.includes(kind)) continue;
    for (const length of [1, 10, 27, 300]) {
      const frame = new Uint8Array(length);
      frame[0] = (kind << 3) | VERSION;
      for (const told of [peek(frame), openMessage(CHIP, SECURED, frame), readPairing(frame)])
        expect(told).toBe('kind');
    }
  }
});

test('nothing at all is no frame', () => {
  for (const told of [
    peek(Uint8Array.of()),
    openMessage(CHIP, SECURED, Uint8Array.of()),
    readPairing(Uint8Array.of()),
  ]) {
    expect(told).toBe('length');
  }
});

describe('what is sealed rightly and says what cannot be is malformed', () => {
  test.each<[string, SealedMessage, Values]>([
    ['a magnitude below 0.5', TALLY, { magnitudeTenths: 4 }],
    ['a magnitude of 0.1', TALLY, { magnitudeTenths: 1 }],
    ['a magnitude above 50', TALLY, { magnitudeTenths: 501 }],
    ['more unrated than trigger time', TALLY, { triggerWindows: 299 }],
    ['a flag that nobody knows', TALLY, { flags: 256 }],
    ['a level that nobody knows', ACK, { level: 5 }],
    ['level 7', ACK, { level: 7 }],
    ['a reserved bit of an acknowledgement', ACK, { reserved: 1 }],
    ['a reserved bit of a report', REPORT, { reserved: 0x8000 }],
    ['an accept of no counter', ACCEPTS[0]!, { counter: 0 }],
    ['an accept of no wearable', ACCEPTS[1]!, { wearable: 0 }],
  ])('%s', (_, message, fields) => {
    expect(openMessage(CHIP, SECURED, remade(message))).toEqual(message);
    expect(openMessage(CHIP, SECURED, remade(message, fields))).toBe('malformed');
  });

  test.each<[string, SealedMessage, { link?: number; sequence?: number }]>([
    ['link 0', TALLY, { link: 0 }],
    ['a tally with sequence 0', TALLY, { sequence: 0 }],
    ['a report with sequence 0', REPORT, { sequence: 0 }],
    ['an acknowledgement with sequence 0', ACK, { sequence: 0 }],
    ['an accept with another sequence', ACCEPTS[0]!, { sequence: 1 }],
  ])('%s, which shows without a key', (_, message, envelope) => {
    const frame = remade(message, {}, envelope);
    expect(openMessage(CHIP, SECURED, frame)).toBe('malformed');
    expect(peek(frame)).toBe('malformed');
  });

  test('but the ends of what can be are not', () => {
    for (const magnitudeTenths of [0, 5, 500]) {
      const message = { ...TALLY, magnitudeTenths };
      expect(openMessage(CHIP, SECURED, remade(message))).toEqual(message);
    }
    const even = { ...TALLY, triggerWindows: 300, flags: 255 };
    expect(openMessage(CHIP, SECURED, remade(even))).toEqual(even);
  });
});

test('reserved bits of a frame that was refused do not come up in the next that is sealed', () => {
  for (const [message, reserved] of [
    [REPORT, 0xffff],
    [ACK, 0xf],
  ] as const) {
    expect(openMessage(CHIP, SECURED, remade(message, { reserved }))).toBe('malformed');
    expect(sealMessage(CHIP, SECURED, message)).toEqual(remade(message));
  }
});

describe('what would be refused is not sealed', () => {
  test.each<[string, SealedMessage]>([
    ['link 0', { ...TALLY, link: 0 }],
    ['a link of 17 bits', { ...TALLY, link: 0x10000 }],
    ['sequence 0', { ...TALLY, sequence: 0 } as SealedMessage],
    ['a sequence of 33 bits', { ...TALLY, sequence: 2 ** 32 } as SealedMessage],
    ['a dose of 53 bits', { ...TALLY, dose: 2 ** 52 } as SealedMessage],
    ['half a window', { ...TALLY, triggerWindows: 300.5 } as SealedMessage],
    ['a magnitude between none and the least', { ...TALLY, magnitudeTenths: 3 } as SealedMessage],
    ['a level that nobody knows', { ...ACK, level: 5 } as SealedMessage],
    ['no counter', { ...ACCEPTS[0]!, counter: 0 } as SealedMessage],
  ])('%s', (_, message) => {
    expect(() => sealMessage(CHIP, SECURED, message)).toThrow();
  });

  test('and nothing is sealed or opened for session 0, or for more than 32 bits of it', () => {
    for (const session of [0, 2 ** 32]) {
      expect(() => sealMessage(CHIP, { ...SECURED, session }, TALLY)).toThrow();
      expect(() => openMessage(CHIP, { ...SECURED, session }, sealMessage(CHIP, SECURED, TALLY))).toThrow();
    }
  });
});

test('a frame of a pairing is not opened by a key', () => {
  const frame = new Uint8Array(25);
  frame[0] = (KIND_CODES.nonce << 3) | VERSION;
  expect(openMessage(CHIP, SECURED, frame)).toBe('kind');
});
