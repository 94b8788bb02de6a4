import { expect, it } from 'vitest';
import { hexText } from '../../src/bench/hex.js';

it('writes two digits a byte, in lower case, of the piece that is given and no more', () => {
  expect(hexText(new Uint8Array())).toBe('');
  expect(hexText(Uint8Array.of(0, 1, 0x0f, 0xa0, 0xff))).toBe('00010fa0ff');
  expect(hexText(Uint8Array.of(1, 2, 3, 4).subarray(1, 3))).toBe('0203');
});
