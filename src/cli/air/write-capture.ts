// Puts a capture into a file. One that is there already is not written over unless that is asked for.
import { closeSync, openSync, writeSync } from 'node:fs';

/** Null, or a sentence that says why it was not written. */
export function writeCapture(file: string, pieces: Iterable<Uint8Array>, force: boolean): string | null {
  try {
    const descriptor = openSync(file, force ? 'w' : 'wx');
    try {
      for (const piece of gathered(pieces)) writeAll(descriptor, piece);
    } finally {
      closeSync(descriptor);
    }
    return null;
  } catch (error) {
    return whyNot((error as NodeJS.ErrnoException).code);
  }
}

/** Pieces put together, so that a day's worth of them is written in few calls. */
const GATHERED_BYTES = 1_000_000;

export function* gathered(pieces: Iterable<Uint8Array>): Iterable<Uint8Array> {
  let waiting: Uint8Array[] = [];
  let bytes = 0;
  for (const piece of pieces) {
    waiting.push(piece);
    bytes += piece.length;
    if (bytes < GATHERED_BYTES) continue;
    yield Buffer.concat(waiting);
    [waiting, bytes] = [[], 0];
  }
  if (bytes > 0) yield Buffer.concat(waiting);
}

function writeAll(descriptor: number, bytes: Uint8Array): void {
  for (let written = 0; written < bytes.length; ) {
    written += writeSync(descriptor, bytes, written);
  }
}

function whyNot(code: string | undefined): string {
  switch (code) {
    case 'EEXIST':
      return 'there is such a file already; --force writes over it';
    case 'ENOENT':
    case 'ENOTDIR':
      return 'there is no such folder';
    case 'EISDIR':
      return 'this is a folder';
    default:
      return `it cannot be written (${code ?? 'unknown reason'})`;
  }
}
