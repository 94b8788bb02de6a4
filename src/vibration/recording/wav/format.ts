// The header of a WAV file: a walk over its chunks up to the samples. The kept libraries for WAV read whole files into memory,
// and an hour of three channels is half a gigabyte; so the walk is our own, and reads a few bytes a chunk.
// RIFF/WAVE as in Microsoft's and IBM's "Multimedia Programming Interface 1.0"; RF64 and its ds64 chunk: EBU Tech 3306.
import type { FileHandle } from 'node:fs/promises';
import { Refused } from '../error.js';
import { GREATEST_RATE_HZ } from '../limits.js';
import type { SampleType } from './decode.js';

export interface WavFormat {
  readonly rateHz: number;
  readonly channels: number;
  readonly type: SampleType;
  readonly frameBytes: number;
  /** Offset of the first sample. */
  readonly from: number;
  /** As the header tells it; null where the writer left it open, as one that could not go back to the start. */
  readonly dataBytes: number | null;
}

const HEAD_BYTES = 12;
const CHUNK_HEAD_BYTES = 8;
/** Of a format or a ds64 chunk, as much as counts; what follows is passed over. */
const CHUNK_READ_BYTES = 40;
const LEAST_FORMAT_BYTES = 16;
const EXTENSIBLE_BYTES = 40;
const DS64_BYTES = 16;
const MAX_CHUNKS = 1000;
const MAX_CHANNELS = 64;
/** In place of a length: it is in ds64, or nobody knows it. */
const OPEN_LENGTH = 0xffff_ffff;
const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** What follows the format's number in a WAVE_FORMAT_EXTENSIBLE subformat. */
const SUBFORMAT_TAIL = '000000001000800000aa00389b71';
const TYPES: Readonly<Record<string, SampleType>> = {
  [`${PCM} 16`]: 'int16',
  [`${PCM} 24`]: 'int24',
  [`${PCM} 32`]: 'int32',
  [`${FLOAT} 32`]: 'float32',
  [`${FLOAT} 64`]: 'float64',
};

export const WAV_HEAD_BYTES = HEAD_BYTES;

/** Whether a file that begins so is a WAV file. */
export function isWav(head: Buffer): boolean {
  return ['RIFF', 'RF64'].includes(head.toString('latin1', 0, 4));
}

/** Throws Refused. */
export async function readWavFormat(file: FileHandle, fileBytes: number): Promise<WavFormat> {
  const head = await readAt(file, 0, HEAD_BYTES);
  if (head.length < HEAD_BYTES || head.toString('latin1', 8, 12) !== 'WAVE') {
    throw new Refused('it begins like a WAV file and is none. Export the recording again, as WAV or CSV', { byte: 8 });
  }
  const riffBytes = head.readUInt32LE(4);
  let long: { readonly riff: number; readonly data: number } | null = null;
  let format: Omit<WavFormat, 'from' | 'dataBytes'> | null = null;
  let at = HEAD_BYTES;
  for (let chunk = 0; chunk < MAX_CHUNKS; chunk++) {
    const chunkHead = await readAt(file, at, CHUNK_HEAD_BYTES);
    if (chunkHead.length < CHUNK_HEAD_BYTES) break;
    const name = chunkHead.toString('latin1', 0, 4);
    const length = chunkHead.readUInt32LE(4);
    const from = at + CHUNK_HEAD_BYTES;
    if (name === 'data') {
      if (format === null)
        throw new Refused('its samples come before their format. Export the recording again', { byte: at });
      const whole = length === OPEN_LENGTH && long !== null ? long : { riff: riffBytes, data: length };
      return { ...format, from, dataBytes: isOpen(whole, fileBytes) ? null : whole.data };
    }
    const body = await readAt(file, from, Math.min(length, CHUNK_READ_BYTES));
    if (name === 'ds64' && body.length >= DS64_BYTES) {
      long = { riff: Number(body.readBigUInt64LE(0)), data: Number(body.readBigUInt64LE(8)) };
    }
    if (name === 'fmt ') format = readFormat(body, from);
    // Chunks begin at even offsets.
    at = from + length + (length % 2);
  }
  throw new Refused('it ends before its samples begin. Copy it again from the recorder', {
    byte: Math.min(at, fileBytes),
  });
}

/** A length of 0 is meant only where the length of the whole was written too. */
function isOpen({ riff, data }: { readonly riff: number; readonly data: number }, fileBytes: number): boolean {
  if (data !== 0) return data === OPEN_LENGTH;
  return riff === 0 || riff === OPEN_LENGTH || riff + CHUNK_HEAD_BYTES < fileBytes;
}

function readFormat(body: Buffer, byte: number): Omit<WavFormat, 'from' | 'dataBytes'> {
  const refuse = (says: string) => new Refused(`${says}. Export the recording again, as PCM or IEEE float`, { byte });
  if (body.length < LEAST_FORMAT_BYTES) throw refuse('its format is cut short');
  let tag = body.readUInt16LE(0);
  const channels = body.readUInt16LE(2);
  const rateHz = body.readUInt32LE(4);
  const frameBytes = body.readUInt16LE(12);
  const bits = body.readUInt16LE(14);
  if (tag === EXTENSIBLE && body.length >= EXTENSIBLE_BYTES && body.toString('hex', 26, 40) === SUBFORMAT_TAIL) {
    tag = body.readUInt16LE(24);
  }
  const type = TYPES[`${tag} ${bits}`];
  if (type === undefined) {
    throw refuse(
      `its samples (format ${tag}, ${bits} bits) are none of PCM with 16, 24 or 32 bits and float with 32 or 64`,
    );
  }
  if (channels < 1 || channels > MAX_CHANNELS) throw refuse(`${channels} channels are not 1 to ${MAX_CHANNELS}`);
  if (frameBytes !== (channels * bits) / 8) {
    throw refuse(`${channels} channels of ${bits} bits do not make ${frameBytes} bytes`);
  }
  if (rateHz < 1 || rateHz > GREATEST_RATE_HZ) throw refuse(`${rateHz} Hz is no rate of samples`);
  return { rateHz, channels, type, frameBytes };
}

/** Fewer bytes only at the end of the file. */
async function readAt(file: FileHandle, at: number, length: number): Promise<Buffer> {
  const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, at);
  return buffer.subarray(0, bytesRead);
}
