// A second way to make frames, by text and big integers, that shares nothing with the codec but the tables of layout.ts: the
// tests compare one with the other, and seal with it what the codec would refuse to seal.
import type { Cipher } from '../../src/link/cipher.js';
import { HEADER_BITS, type Layout, NONCE_BITS } from '../../src/link/layout.js';

export type Values = Readonly<Record<string, number | bigint | Uint8Array>>;

/** The fields of a layout as bytes; a field without a value is 0. */
export function packed(layout: Layout, values: Values): Uint8Array {
  const digits = Object.entries(layout).map(([field, bits]) => binary(values[field] ?? 0).padStart(bits, '0'));
  const text = digits.join('');
  return Uint8Array.from({ length: text.length / 8 }, (_, index) =>
    Number.parseInt(text.slice(index * 8, index * 8 + 8), 2),
  );
}

function binary(value: number | bigint | Uint8Array): string {
  if (!(value instanceof Uint8Array)) return BigInt(value).toString(2);
  return [...value].map((byte) => byte.toString(2).padStart(8, '0')).join('');
}

export interface Envelope {
  readonly kind: number;
  readonly version: number;
  readonly link: number;
  readonly sequence: number;
  readonly direction: number;
}

/** Any body sealed rightly under any header. */
export function sealedWith(
  cipher: Cipher,
  { key, session }: { readonly key: Uint8Array; readonly session: number },
  envelope: Envelope,
  body: Uint8Array,
): Uint8Array {
  const header = packed(HEADER_BITS, { ...envelope });
  const nonce = packed(NONCE_BITS, { ...envelope, session });
  return Uint8Array.of(...header, ...cipher.seal(key, nonce, header, body));
}
