// A record that somebody has saved in a file: its bytes, or their hexadecimal digits, as `counterproof trace` prints them.
import { closeSync, openSync, readSync } from 'node:fs';
import { beginsAsRecord } from '../../port/record.js';

const STANDARD_INPUT = '-';

/** A wearable's record has fewer than 8 000 bytes (30 shifts, 256 sessions), twice as many digits, and perhaps some lines between them. */
const MAX_BYTES = 100_000;

const DIGITS = /^[0-9a-f\s]*$/i;

/** The bytes, or a sentence that says why there are none. */
export function readSaved(file: string): Uint8Array | string {
  try {
    const content = file === STANDARD_INPUT ? readUpTo(0) : readFile(file);
    if (content.length > MAX_BYTES) return `it has more than ${MAX_BYTES} bytes, and no record has so many`;
    return bytesFrom(content);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code ?? 'unknown reason'})`;
  }
}

/** What the file is called in a sentence. */
export function savedName(file: string): string {
  return file === STANDARD_INPUT ? 'standard input' : file;
}

function readFile(file: string): Uint8Array {
  const opened = openSync(file, 'r');
  try {
    return readUpTo(opened);
  } finally {
    closeSync(opened);
  }
}

/** All that comes, and where it is too much one byte more than a record may have. */
function readUpTo(opened: number): Uint8Array {
  const content = new Uint8Array(MAX_BYTES + 1);
  let length = 0;
  while (length < content.length) {
    const read = readSync(opened, content, length, content.length - length, null);
    if (read === 0) break;
    length += read;
  }
  return content.subarray(0, length);
}

function bytesFrom(content: Uint8Array): Uint8Array | string {
  if (beginsAsRecord(content)) return content;
  const text = new TextDecoder('latin1').decode(content);
  if (!DIGITS.test(text)) return 'these are neither the bytes of a record nor hexadecimal digits';
  const digits = text.replace(/\s/g, '');
  if (digits.length % 2 === 1) return `it has ${digits.length} hexadecimal digits, and a byte takes two`;
  return Uint8Array.from(Buffer.from(digits, 'hex'));
}
