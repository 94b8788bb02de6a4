// A record that somebody has saved in a file: its bytes, or their hexadecimal digits, as `counterproof trace` prints them.
import { readFileSync, statSync } from 'node:fs';

/** A wearable's record has fewer than 8 000 bytes (30 shifts, 256 sessions), twice as many digits, and perhaps some lines between them. */
const MAX_BYTES = 100_000;

const DIGITS = /^[0-9a-f\s]+$/i;

/** The bytes, or a sentence that says why there are none. */
export function readSaved(file: string): Uint8Array | string {
  try {
    const { size } = statSync(file);
    if (size > MAX_BYTES) return `it has ${size} bytes, and no record has so many`;
    return bytesFrom(readFileSync(file));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code ?? 'unknown reason'})`;
  }
}

function bytesFrom(content: Uint8Array): Uint8Array | string {
  const text = new TextDecoder('latin1').decode(content);
  if (!DIGITS.test(text)) return content;
  const digits = text.replace(/\s/g, '');
  if (digits.length % 2 === 1) return `it has ${digits.length} hexadecimal digits, and a byte takes two`;
  return Uint8Array.from(Buffer.from(digits, 'hex'));
}
