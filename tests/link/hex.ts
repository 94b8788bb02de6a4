// Bytes from hexadecimal digits with any spaces between, as publications and README.md print them; and back.

export function hex(digits: string): Uint8Array {
  return Uint8Array.from(Buffer.from(digits.replaceAll(/\s/g, ''), 'hex'));
}

export function toHex(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}

/** Bytes that count from first to last. */
export function counting(first: number, last: number): Uint8Array {
  return Uint8Array.from({ length: last - first + 1 }, (_, index) => first + index);
}
