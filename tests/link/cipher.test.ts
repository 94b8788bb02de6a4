// What a radio chip offers: the real thing against the published vectors, and what both it and its stand-in keep to.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { counting, hex, toHex } from './hex.js';

const bytes = (length: number) => fc.uint8Array({ minLength: length, maxLength: length });

describe('X25519', () => {
  // RFC 7748, section 6.1, from memory; it comes out to the byte.
  const alice = hex('77076d0a7318a57d3c16c17251b26645df4c2f87ebc0992ab177fba51db92c2a');
  const alicePublic = hex('8520f0098930a754748b7ddcb43ef75a0dbf3a0d26381af4eba4a98eaa9b4e6a');
  const bob = hex('5dab087e624a8a4b79e17f8b83800ee66f3bb1292618b6fd1c2f8b27ff88e0eb');
  const bobPublic = hex('de9edb7d7b7dc1b4d35b61c2ece435373f8343c85b78674dadfc7e146f882b4f');
  const shared = '4a5d9d5ba4ce2de1728e3bf480350f25e07e21c947d19e3376f09b3c1e161742';

  test('public keys of both', () => {
    expect(toHex(CHIP.publicKey(alice))).toBe(toHex(alicePublic));
    expect(toHex(CHIP.publicKey(bob))).toBe(toHex(bobPublic));
  });

  test('the secret that both share, from either side', () => {
    expect(toHex(CHIP.agree(alice, bobPublic)!)).toBe(shared);
    expect(toHex(CHIP.agree(bob, alicePublic)!)).toBe(shared);
  });

  // RFC 7748, section 5.2, from memory; the second has its highest bit set, which is to be ignored.
  test.each([
    [
      'a546e36bf0527c9d3b16154b82465edd62144c0ac1fc5a18506a2244ba449ac4',
      'e6db6867583030db3594c1a424b15f7c726624ec26b3353b10a903a6d0ab1c4c',
      'c3da55379de9c6908e94ea4df28d084f32eccf03491c71f754b4075577a28552',
    ],
    [
      '4b66e9d4d1b4673c5ad22691957d6af5c11b6421e0ea01d42ca4169e7918ba0d',
      'e5210f12786811d3f4b7959d0538ae2c31dbe7106fc03c3efc4cd549c715a493',
      '95cbde9476e8907d7aade45cb4b873f88b595a68799fa152e6f8f7647aac7957',
    ],
  ])('scalar %s', (scalar, u, out) => {
    expect(toHex(CHIP.agree(hex(scalar), hex(u))!)).toBe(out);
  });

  // Points of small order: 0, 1, p - 1 and two of order 8 (the published list of X25519's own author, from memory).
  test.each([
    '0000000000000000000000000000000000000000000000000000000000000000',
    '0100000000000000000000000000000000000000000000000000000000000000',
    'ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
    'e0eb7a7c3b41b8ae1656e3faf19fc46ada098deb9c32b1fd866205165f49b800',
    '5f9c95bca3508c24b1d0b1559c83ef5b04445cc4581c8e86d8224eddd09f1157',
  ])('a bad public key gives no secret: %s', (bad) => {
    expect(CHIP.agree(alice, hex(bad))).toBeNull();
  });
});

// RFC 5869, appendix A, test cases 1 to 3, from memory; they come out to the byte.
describe('HKDF-SHA-256', () => {
  test.each([
    [
      1,
      new Uint8Array(22).fill(0x0b),
      counting(0x00, 0x0c),
      counting(0xf0, 0xf9),
      '3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865',
    ],
    [
      2,
      counting(0x00, 0x4f),
      counting(0x60, 0xaf),
      counting(0xb0, 0xff),
      'b11e398dc80327a1c8e7f78c596a49344f012eda2d4efad8a050cc4c19afa97c59045a99cac7827271cb41c65e590e09' +
        'da3275600c2f09b8367793a9aca3db71cc30c58179ec3e87c14c01d5c1f3434f1d87',
    ],
    [
      3,
      new Uint8Array(22).fill(0x0b),
      new Uint8Array(),
      new Uint8Array(),
      '8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8',
    ],
  ])('test case %i', (_, secret, salt, info, out) => {
    expect(toHex(CHIP.derive(secret, salt, info, out.length / 2))).toBe(out);
  });
});

test('SHA-256 of "abc"', () => {
  // FIPS 180-4's example, from memory.
  const out = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
  expect(toHex(CHIP.hash(new TextEncoder().encode('abc')))).toBe(out);
});

describe.each([
  ['CHIP', CHIP],
  ['NO_KEYS', NO_KEYS],
])('%s', (name, cipher) => {
  const numRuns = name === 'CHIP' ? 50 : 500;

  test('both sides of an agreement come to the same, and a third to another', () => {
    fc.assert(
      fc.property(bytes(32), bytes(32), bytes(32), (one, other, third) => {
        const [onePublic, otherPublic] = [cipher.publicKey(one), cipher.publicKey(other)];
        const shared = cipher.agree(one, otherPublic);
        expect(shared).toHaveLength(32);
        expect(cipher.agree(other, onePublic)).toEqual(shared);
        if (toHex(cipher.publicKey(third)) === toHex(onePublic)) return;
        expect(cipher.agree(third, otherPublic)).not.toEqual(shared);
      }),
      { numRuns },
    );
  });

  test('a public key of zeros gives no secret', () => {
    expect(cipher.agree(counting(1, 32), new Uint8Array(32))).toBeNull();
  });

  test('keys of a wrong length are a programmer’s error', () => {
    expect(() => cipher.publicKey(new Uint8Array(31))).toThrow();
    expect(() => cipher.agree(new Uint8Array(33), counting(1, 32))).toThrow();
    expect(() => cipher.agree(counting(1, 32), new Uint8Array(31))).toThrow();
    expect(() => cipher.seal(new Uint8Array(15), new Uint8Array(13), new Uint8Array(7), new Uint8Array(16))).toThrow();
    expect(() => cipher.open(new Uint8Array(15), new Uint8Array(13), new Uint8Array(7), new Uint8Array(16))).toThrow();
  });

  test('what is sealed opens with the same key, nonce and header, and with no other', () => {
    fc.assert(
      fc.property(bytes(16), bytes(13), bytes(7), bytes(16), fc.nat(36 * 8 - 1), (key, nonce, header, body, bit) => {
        const sealed = cipher.seal(key, nonce, header, body);
        expect(sealed).toHaveLength(20);
        expect(Uint8Array.from(cipher.open(key, nonce, header, sealed)!)).toEqual(body);
        const all = [key.slice(), nonce.slice(), header.slice()] as const;
        // NO_KEYS looks at the first four bytes of a key, as README.md says.
        const part = bit < 32 ? all[0] : bit < 136 ? all[1] : all[2];
        const inPart = bit < 32 ? bit : bit < 136 ? bit - 32 : (bit - 136) % 56;
        part[inPart >>> 3]! ^= 1 << (inPart & 7);
        expect(cipher.open(...all, sealed)).toBeNull();
      }),
      { numRuns },
    );
  });

  test('what is too short to carry a tag is not opened', () => {
    expect(cipher.open(new Uint8Array(16), new Uint8Array(13), new Uint8Array(7), Uint8Array.of(1, 2, 3))).toBeNull();
  });

  test('a hash has 32 bytes, and each bit of the data sways it', () => {
    const data = counting(0, 99);
    const seen = new Set([toHex(cipher.hash(data))]);
    expect(cipher.hash(data)).toHaveLength(32);
    for (let bit = 0; bit < 800; bit++) {
      const flipped = data.slice();
      flipped[bit >>> 3]! ^= 1 << (bit & 7);
      seen.add(toHex(cipher.hash(flipped)));
    }
    expect(seen.size).toBe(801);
  });

  test('secret, salt and info each sway what is derived', () => {
    const derived = (secret: number, salt: number, info: number) =>
      toHex(cipher.derive(counting(secret, 31), counting(salt, 31), counting(info, 31), 16));
    expect(derived(0, 0, 0)).toHaveLength(32);
    expect(new Set([derived(0, 0, 0), derived(1, 0, 0), derived(0, 1, 0), derived(0, 0, 1)]).size).toBe(4);
  });
});

test('the stand-in derives no more than its hash gives', () => {
  expect(() => NO_KEYS.derive(counting(0, 31), counting(0, 31), counting(0, 31), 33)).toThrow('no more than 32');
});
