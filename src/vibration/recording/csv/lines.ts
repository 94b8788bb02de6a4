// A file's lines, some thousand at once, in memory that does not depend on the file: not even where a line never ends.
import type { FileHandle } from 'node:fs/promises';

/** A longer line is left out as a whole; a row of a recording is hardly longer than a hundred. */
export const MAX_LINE_BYTES = 65_536;

const LINE_END = 0x0a;

/** Whole lines with their ends (the last of a file may have none), or the place of one that is too long. */
export interface Lines {
  /** Used again for the next lines; empty where the line is too long. */
  readonly bytes: Buffer;
  /** Of the first byte, in the file. */
  readonly offset: number;
  readonly tooLong: boolean;
  /** Bytes read up to now, from the start of the file. */
  readonly read: number;
}

/** from: offset of the start of a line. Ends with the file, which is read up to 64 KiB at a time. */
export async function* linesOf(file: FileHandle, from: number): AsyncGenerator<Lines> {
  const buffer = Buffer.alloc(MAX_LINE_BYTES);
  let offset = from;
  let held = 0;
  let skipping = false;
  const drop = (bytes: number) => {
    buffer.copyWithin(0, bytes, held);
    offset += bytes;
    held -= bytes;
  };
  for (;;) {
    const { bytesRead } = await file.read(buffer, held, buffer.length - held, offset + held);
    held += bytesRead;
    if (skipping) {
      const end = buffer.subarray(0, held).indexOf(LINE_END);
      skipping = end === -1;
      drop(skipping ? held : end + 1);
    }
    const whole = bytesRead === 0 ? held : buffer.subarray(0, held).lastIndexOf(LINE_END) + 1;
    const read = offset + held;
    if (whole > 0) yield { bytes: buffer.subarray(0, whole), offset, tooLong: false, read };
    else if (held === buffer.length) {
      skipping = true;
      yield { bytes: buffer.subarray(0, 0), offset, tooLong: true, read };
    }
    drop(skipping ? held : whole);
    if (bytesRead === 0) return;
  }
}
