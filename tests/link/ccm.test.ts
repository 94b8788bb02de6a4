// AES-128-CCM by the helper that CHIP uses, against RFC 3610, section 8. The texts of the packet vectors are from memory; the
// helper comes to every byte of them. There the tag has 8 bytes (1 to 6) or 10 (7 to 12), here 4, so that the helper is told.
import { describe, expect, test } from 'vitest';
import { openCcm, sealCcm } from '../../src/link/ccm.js';
import { counting, hex, toHex } from './hex.js';

const KEY = hex('C0C1C2C3C4C5C6C7C8C9CACBCCCDCECF');

/** Tag bytes, bytes of header, last byte of the packet (it counts from 0), what comes out. */
const VECTORS: readonly (readonly [number, number, number, string])[] = [
  [8, 8, 0x1e, '588C979A61C663D2F066D0C2C0F989806D5F6B61DAC384 17E8D12CFDF926E0'],
  [8, 8, 0x1f, '72C91A36E135F8CF291CA894085C87E3CC15C439C9E43A3B A091D56E10400916'],
  [8, 8, 0x20, '51B1E5F44A197D1DA46B0F8E2D282AE871E838BB64DA859657 4ADAA76FBD9FB0C5'],
  [8, 12, 0x1e, 'A28C6865939A9A79FAAA5C4C2A9D4A91CDAC8C 96C861B9C9E61EF1'],
  [8, 12, 0x1f, 'DCF1FB7B5D9E23FB9D4E131253658AD86EBDCA3E 51E83F077D9C2D93'],
  [8, 12, 0x20, '6FC1B011F006568B5171A42D953D469B2570A4BD87 405A0443AC91CB94'],
  [10, 8, 0x1e, '0135D1B2C95F41D5D1D4FEC185D166B8094E999DFED96C 048C56602C97ACBB7490'],
  [10, 8, 0x1f, '7B75399AC0831DD2F0BBD75879A2FD8F6CAE6B6CD9B7DB24 C17B4433F434963F34B4'],
  [10, 8, 0x20, '82531A60CC24945A4B8279181AB5C84DF21CE7F9B73F42E197 EA9C07E56B5EB17E5F4E'],
  [10, 12, 0x1e, '07342594157785152B074098330ABB141B947B 566AA9406B4D999988DD'],
  [10, 12, 0x1f, '676BB20380B0E301E8AB79590A396DA78B834934 F53AA2E9107A8B6C022C'],
  [10, 12, 0x20, 'C0FFA0D6F05BDB67F24D43A4338D2AA4BED7B20E43 CD1AA31662E7AD65D6DB'],
];

describe.each(VECTORS.map((vector, index) => [index + 1, ...vector] as const))(
  'packet vector %i',
  (number, tagBytes, headerBytes, last, out) => {
    const nonce = Uint8Array.of(0, 0, 0, number + 2, number + 1, number, number - 1, ...counting(0xa0, 0xa5));
    const header = counting(0, headerBytes - 1);
    const body = counting(headerBytes, last);
    const sealed = hex(out);

    test('seals as printed', () => {
      expect(toHex(sealCcm(tagBytes, KEY, nonce, header, body))).toBe(toHex(sealed));
    });

    test('opens what is printed, and nothing beside it', () => {
      expect(toHex(openCcm(tagBytes, KEY, nonce, header, sealed) ?? Uint8Array.of())).toBe(toHex(body));
      for (let bit = 0; bit < sealed.length * 8; bit++) {
        const flipped = sealed.slice();
        flipped[bit >>> 3]! ^= 1 << (bit & 7);
        expect(openCcm(tagBytes, KEY, nonce, header, flipped)).toBeNull();
      }
    });
  },
);

test('what is too short to carry a tag is not opened', () => {
  expect(openCcm(4, KEY, new Uint8Array(13), new Uint8Array(7), Uint8Array.of(1, 2, 3))).toBeNull();
});

test('a key, nonce or tag of a wrong length is a programmer’s error', () => {
  const [nonce, header, body] = [new Uint8Array(13), new Uint8Array(7), new Uint8Array(16)];
  expect(() => sealCcm(4, KEY.slice(1), nonce, header, body)).toThrow();
  expect(() => sealCcm(4, KEY, new Uint8Array(14), header, body)).toThrow();
  expect(() => sealCcm(3, KEY, nonce, header, body)).toThrow();
  expect(() => openCcm(4, KEY.slice(1), nonce, header, body)).toThrow();
});
