// Frames of a pairing before there is a key (PAI-1, PAI-2): every message reads as written; bit errors and nonsense are refused.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHIP } from '../../src/link/cipher.js';
import { crc32 } from '../../src/link/crc32.js';
import { peek, readPairing, sealMessage, writePairing } from '../../src/link/frames.js';
import {
  ANSWER_BITS,
  HELLO_BITS,
  KIND_CODES,
  type Layout,
  PAIRING_HEADER_BITS,
  PAIRING_NONCE_BITS,
  REFUSE_BITS,
  VERSION,
} from '../../src/link/layout.js';
import { REFUSE_REASONS } from '../../src/link/messages.js';
import type { ClearMessage } from '../../src/link/pairing-messages.js';
import { counting } from './hex.js';
import { clearMessage } from './messages.js';
import { packed, type Values } from './packer.js';

const EACH: readonly ClearMessage[] = [
  { frame: 'hello', counter: 3, wearable: 9, publicKey: counting(1, 32) },
  {
    frame: 'answer',
    counter: 3,
    wearable: 9,
    link: 0x1234,
    session: 7,
    publicKey: counting(33, 64),
    commitment: counting(65, 80),
  },
  { frame: 'nonce', counter: 3, wearable: 9, nonce: counting(81, 96) },
  { frame: 'reveal', counter: 3, wearable: 9, nonce: counting(97, 112) },
  { frame: 'refuse', counter: 3, wearable: 9, reason: 'full' },
];

const LAYOUTS: Readonly<Record<ClearMessage['frame'], Layout>> = {
  hello: HELLO_BITS,
  answer: ANSWER_BITS,
  nonce: PAIRING_NONCE_BITS,
  reveal: PAIRING_NONCE_BITS,
  refuse: REFUSE_BITS,
};

/** A message's frame as the second way makes it, with fields of one's own and a checksum that is right. */
function remade(message: ClearMessage, fields: Values = {}): Uint8Array {
  const reason = message.frame === 'refuse' ? REFUSE_REASONS.indexOf(message.reason) : 0;
  const values = {
    ...message,
    kind: KIND_CODES[message.frame],
    version: VERSION,
    reason,
    ...fields,
  } as unknown as Values;
  const checked = packed({ ...PAIRING_HEADER_BITS, ...LAYOUTS[message.frame] }, values);
  return Uint8Array.of(...checked, ...packed({ checksum: 32 }, { checksum: crc32(checked) }));
}

test('every message reads as it was written', () => {
  fc.assert(
    fc.property(clearMessage, (message) => {
      const frame = writePairing(message);
      expect(readPairing(frame)).toEqual(message);
      expect(frame).toEqual(remade(message));
      expect(frame.length).toBeLessThanOrEqual(244);
      expect(peek(frame)).toEqual({ frame: message.frame, link: 0, sequence: 0 });
    }),
    { numRuns: 500 },
  );
});

test('no frame with one bit flipped is read', () => {
  for (const message of EACH) {
    const frame = writePairing(message);
    for (let bit = 0; bit < frame.length * 8; bit++) {
      const flipped = frame.slice();
      flipped[bit >>> 3]! ^= 0x80 >>> (bit & 7);
      const told = readPairing(flipped);
      expect(told, `${message.frame}, bit ${bit}`).toBeTypeOf('string');
      if (bit >= 8) expect(told).toBe('checksum');
    }
  }
});

test('no frame that is cut or goes on is read', () => {
  for (const message of EACH) {
    const frame = writePairing(message);
    for (let length = 0; length < frame.length; length++) expect(readPairing(frame.slice(0, length))).toBe('length');
    for (let more = 1; more <= 300; more++) {
      expect(readPairing(Uint8Array.of(...frame, ...new Uint8Array(more)))).toBe('length');
    }
  }
});

describe('what has a right checksum and says what cannot be is malformed', () => {
  test.each<[string, number, Values]>([
    ['no counter', 0, { counter: 0 }],
    ['no wearable', 2, { wearable: 0 }],
    ['link 0', 1, { link: 0 }],
    ['session 0', 1, { session: 0 }],
    ['a reason that nobody knows', 4, { reason: REFUSE_REASONS.length }],
  ])('%s', (_, which, fields) => {
    const message = EACH[which]!;
    expect(readPairing(remade(message))).toEqual(message);
    expect(readPairing(remade(message, fields))).toBe('malformed');
  });
});

describe('what would be refused is not written', () => {
  test.each<[string, ClearMessage]>([
    ['no counter', { ...EACH[0]!, counter: 0 }],
    ['no wearable', { ...EACH[4]!, wearable: 0 }],
    ['an identity of 17 bits', { ...EACH[0]!, wearable: 0x10000 }],
    ['link 0', { ...EACH[1]!, link: 0 } as ClearMessage],
    ['session 0', { ...EACH[1]!, session: 0 } as ClearMessage],
    ['a short key', { ...EACH[0]!, publicKey: counting(1, 31) } as ClearMessage],
    ['a long nonce', { ...EACH[2]!, nonce: counting(1, 17) } as ClearMessage],
    ['a reason that nobody knows', { ...EACH[4]!, reason: 'mood' } as unknown as ClearMessage],
  ])('%s', (_, message) => {
    expect(() => writePairing(message)).toThrow();
  });
});

test('a sealed frame is no frame of a pairing before the key', () => {
  const accept = { frame: 'accept', link: 1, counter: 3, wearable: 9, by: 'counter' } as const;
  expect(readPairing(sealMessage(CHIP, { key: counting(1, 16), session: 1 }, accept))).toBe('kind');
});
