// Opens a file as a recording, whatever it holds: what is wrong with it comes back as a value.
import { type FileHandle, open, stat } from 'node:fs/promises';
import { openCsv } from './csv/csv.js';
import { isSystemError, type RecordingError, Refused } from './error.js';
import { GREATEST_ACCELERATION, GREATEST_RATE_HZ } from './limits.js';
import type { Recording } from './recording.js';
import { type Source, StreamedRecording } from './streamed.js';
import { isWav, WAV_HEAD_BYTES } from './wav/format.js';
import { openWav } from './wav/wav.js';

export interface OpenOptions {
  /** Of a CSV file without times, Hz: above 0, up to 1 MHz. */
  readonly rateHz?: number | undefined;
  /** What full scale of a WAV file stands for, m/s²: above 0, up to 10⁶. */
  readonly fullScale?: number | undefined;
}

/** The first bytes of files that are no text. */
const SNIFFED_BYTES = 4096;

/**
 * A CSV or WAV file, told apart by what it holds. Reads its head; Recording.blocks reads the rest. Throws only for options that
 * are out of their range.
 */
export async function openRecording(path: string, options: OpenOptions = {}): Promise<Recording | RecordingError> {
  checkRange('rateHz', options.rateHz, GREATEST_RATE_HZ);
  checkRange('fullScale', options.fullScale, GREATEST_ACCELERATION);
  let file: FileHandle | null = null;
  try {
    const { size, isFile } = await look(path);
    // A pipe or a device may never end, and cannot be read again; opening a pipe waits for somebody who writes into it.
    if (!isFile) throw new Refused('it is no file. Name a CSV or WAV file');
    if (size === 0) throw new Refused('it is empty. Copy it again from the recorder', { byte: 0 });
    file = await open(path);
    return new StreamedRecording(await openSource(file, path, size, options));
  } catch (error) {
    if (error instanceof Refused) return error.of(path);
    if (isSystemError(error)) return unreadable(error).of(path);
    throw error;
  } finally {
    await file?.close();
  }
}

async function look(path: string): Promise<{ readonly size: number; readonly isFile: boolean }> {
  const found = await stat(path);
  return { size: found.size, isFile: found.isFile() };
}

async function openSource(
  file: FileHandle,
  path: string,
  size: number,
  { rateHz, fullScale }: OpenOptions,
): Promise<Source> {
  const { buffer, bytesRead } = await file.read(Buffer.alloc(SNIFFED_BYTES), 0, SNIFFED_BYTES, 0);
  const head = buffer.subarray(0, bytesRead);
  if (head.length >= WAV_HEAD_BYTES && isWav(head)) return openWav(file, path, size, fullScale);
  const utf16 = [0xfeff, 0xfffe].includes(head.length > 1 ? head.readUInt16BE(0) : 0);
  if (utf16) throw new Refused('it is text in UTF-16. Save it as UTF-8', { byte: 0 });
  const zero = head.indexOf(0);
  if (zero !== -1) throw new Refused('it is neither CSV nor WAV. Export the recording as one of them', { byte: zero });
  return openCsv(file, path, size, rateHz);
}

function unreadable({ code }: NodeJS.ErrnoException): Refused {
  if (code === 'ENOENT') return new Refused('there is no such file. Look at its name');
  if (code === 'EACCES') return new Refused('it may not be read. Ask for the right to read it');
  return new Refused(`it cannot be read (${code}). Copy it to another place and try again`);
}

function checkRange(name: string, value: number | undefined, greatest: number): void {
  if (value === undefined || (value > 0 && value <= greatest)) return;
  throw new RangeError(`${name} is above 0 and up to ${greatest}, not ${value}`);
}
