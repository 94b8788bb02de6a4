// A recording in a WAV file: read frame after frame in blocks, the arrays used again.
import { type FileHandle, open } from 'node:fs/promises';
import { AXES, type Axis } from '../../weighting/filter.js';
import { Refused } from '../error.js';
import { counted, finding, Places, shown } from '../findings.js';
import { GREATEST_ACCELERATION, isPossible } from '../limits.js';
import type { Block, Finding } from '../recording.js';
import type { Pass, Source } from '../streamed.js';
import { decode, GREATEST_PART, isFloat } from './decode.js';
import { readWavFormat, type WavFormat } from './format.js';

export const WAV_BLOCK_FRAMES = 65_536;

/** fullScale: m/s² that full scale stands for. Throws Refused. */
export async function openWav(file: FileHandle, path: string, fileBytes: number, fullScale?: number): Promise<Source> {
  if (fullScale === undefined) {
    throw new Refused(
      'a WAV file does not say how much its full scale is. State it in m/s²: --full-scale 500, for instance',
    );
  }
  const format = await readWavFormat(file, fileBytes);
  const axes = AXES.slice(0, format.channels);
  return {
    name: path,
    rateHz: format.rateHz,
    totalBytes: fileBytes,
    axes,
    fullScale: { low: -fullScale, high: GREATEST_PART[format.type] * fullScale },
    findings: [...channelFindings(format), ...lengthFindings(format)],
    pass: () => new WavPass(path, fileBytes, format, axes, fullScale),
  };
}

function channelFindings({ channels }: WavFormat): Finding[] {
  const says = `Of its ${channels} channels, the first three are read as x, y and z; the others are not read.`;
  return channels > AXES.length ? [finding('notes', 'channels-ignored', says)] : [];
}

function lengthFindings({ dataBytes }: WavFormat): Finding[] {
  const says = 'Its header does not tell how long it is: all that follows the header is read as samples.';
  return dataBytes === null ? [finding('notes', 'length-unknown', says)] : [];
}

class WavPass implements Pass {
  bytesRead = 0;
  private frames = 0;
  private ended = false;
  private readonly impossible = new Places();

  constructor(
    private readonly path: string,
    private readonly fileBytes: number,
    private readonly format: WavFormat,
    private readonly axes: readonly Axis[],
    private readonly fullScale: number,
  ) {}

  async *blocks(): AsyncGenerator<Block> {
    const { frameBytes, from, channels, type } = this.format;
    const arrays = { x: newArray(), y: newArray(), z: newArray() };
    const outputs = this.axes.map((axis) => arrays[axis]);
    const bytes = Buffer.from(new ArrayBuffer(WAV_BLOCK_FRAMES * frameBytes));
    const end = Math.min(this.fileBytes, from + (this.format.dataBytes ?? Number.POSITIVE_INFINITY));
    const file = await open(this.path);
    try {
      let begins = true;
      for (let at = from; at < end; at = this.bytesRead) {
        const got = await fill(file, bytes, at, Math.min(bytes.length, end - at));
        const count = Math.floor(got / frameBytes);
        this.bytesRead = at + got;
        if (count === 0) break;
        decode(type, bytes.subarray(0, count * frameBytes), count, channels, outputs, this.fullScale);
        // Whole numbers are always possible: full scale is.
        for (const [start, stop] of isFloat(type) ? this.possible(outputs, count) : [[0, count] as const]) {
          if (start > 0) begins = true;
          if (stop > start) {
            yield { samples: parts(arrays, start, stop), length: stop - start, begins };
            begins = false;
          }
        }
        this.frames += count;
        if (got < bytes.length) break;
      }
    } finally {
      await file.close();
    }
    this.ended = true;
  }

  findings(): Finding[] {
    const found: Finding[] = [];
    if (this.impossible.count > 0) {
      const which = `${counted(this.impossible.count, 'sample')} not finite or beyond ${GREATEST_ACCELERATION} m/s²`;
      const says = `${which}: ${this.impossible}. They are left out, and the stretch ends there. Check recorder and full scale.`;
      found.push(finding('doubts', 'samples-impossible', says));
    }
    if (this.ended) found.push(...this.truncation());
    return found;
  }

  /** Stretches of frames of which all values are possible, as from and to. */
  private *possible(outputs: readonly Float64Array[], count: number): Generator<readonly [number, number]> {
    let from = 0;
    // Looked at one after the other: an hour has a hundred million frames, and hardly ever a bad one.
    const someBad = outputs.some((output) => !areAllPossible(output, count));
    for (let frame = 0; someBad && frame < count; frame++) {
      const bad = outputs.find((output) => !isPossible(output[frame]!));
      if (bad === undefined) continue;
      this.impossible.add(() => `${bad[frame]} at ${shown((this.frames + frame) / this.format.rateHz)} s`);
      yield [from, frame];
      from = frame + 1;
    }
    yield [from, count];
  }

  private truncation(): Finding[] {
    const { dataBytes, frameBytes, from } = this.format;
    const missing = dataBytes === null ? (this.bytesRead - from) % frameBytes : dataBytes - this.frames * frameBytes;
    if (missing <= 0) return [];
    const ends =
      dataBytes === null
        ? 'It ends within a frame of samples'
        : `Its header promises ${shown(dataBytes / frameBytes)} frames, and there are ${this.frames}`;
    return [finding('doubts', 'truncated', `${ends}: the end is missing. Copy it again from the recorder.`)];
  }
}

function areAllPossible(values: Float64Array, count: number): boolean {
  for (let at = 0; at < count; at++) if (!isPossible(values[at]!)) return false;
  return true;
}

function newArray(): Float64Array {
  return new Float64Array(WAV_BLOCK_FRAMES);
}

function parts(arrays: Readonly<Record<Axis, Float64Array>>, from: number, to: number): Block['samples'] {
  return { x: arrays.x.subarray(from, to), y: arrays.y.subarray(from, to), z: arrays.z.subarray(from, to) };
}

/** Reads up to `length` bytes; fewer only where the file ends. Each turn of the loop reads a byte at least. */
async function fill(file: FileHandle, bytes: Buffer, at: number, length: number): Promise<number> {
  let got = 0;
  while (got < length) {
    const { bytesRead } = await file.read(bytes, got, length - got, at + got);
    if (bytesRead === 0) break;
    got += bytesRead;
  }
  return got;
}
