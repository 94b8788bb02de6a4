// The samples of a WAV file, little-endian and interleaved, into one array an axis.
import { endianness } from 'node:os';

export type SampleType = 'int16' | 'int24' | 'int32' | 'float32' | 'float64';

/** The greatest number of a type of whole numbers stands for this much less than full scale. */
export const GREATEST_PART: Readonly<Record<SampleType, number>> = {
  int16: 1 - 2 ** -15,
  int24: 1 - 2 ** -23,
  int32: 1 - 2 ** -31,
  float32: 1,
  float64: 1,
};

export function isFloat(type: SampleType): boolean {
  return type === 'float32' || type === 'float64';
}

/**
 * Takes the first outputs.length of the channels of each frame. bytes: from the start of an ArrayBuffer, so that it can be seen
 * as an array of numbers; on a machine that is not little-endian it is turned around in place. fullScale: what 1.0 stands for.
 */
export function decode(
  type: SampleType,
  bytes: Buffer,
  frames: number,
  channels: number,
  outputs: readonly Float64Array[],
  fullScale: number,
): void {
  for (const [channel, output] of outputs.entries()) {
    if (type === 'int24') decode24(bytes, frames, 3 * channels, 3 * channel, output, fullScale / 2 ** 23);
  }
  if (type === 'int24') return;
  const numbers = seenAs(type, bytes);
  const factor = type === 'int16' ? fullScale / 2 ** 15 : type === 'int32' ? fullScale / 2 ** 31 : fullScale;
  for (const [channel, output] of outputs.entries()) spread(numbers, frames, channels, channel, output, factor);
}

type Numbers = Int16Array | Int32Array | Float32Array | Float64Array;

function seenAs(type: Exclude<SampleType, 'int24'>, bytes: Buffer): Numbers {
  const turned = endianness() === 'LE' ? bytes : turnedAround(type, bytes);
  const { buffer, byteOffset, length } = turned;
  if (type === 'int16') return new Int16Array(buffer, byteOffset, length / 2);
  if (type === 'int32') return new Int32Array(buffer, byteOffset, length / 4);
  if (type === 'float32') return new Float32Array(buffer, byteOffset, length / 4);
  return new Float64Array(buffer, byteOffset, length / 8);
}

function turnedAround(type: SampleType, bytes: Buffer): Buffer {
  if (type === 'int16') return bytes.swap16();
  return type === 'float64' ? bytes.swap64() : bytes.swap32();
}

function spread(
  numbers: Numbers,
  frames: number,
  channels: number,
  channel: number,
  output: Float64Array,
  factor: number,
): void {
  for (let frame = 0, at = channel; frame < frames; frame++, at += channels) output[frame] = numbers[at]! * factor;
}

function decode24(
  bytes: Buffer,
  frames: number,
  frameBytes: number,
  offset: number,
  output: Float64Array,
  factor: number,
): void {
  for (let frame = 0, at = offset; frame < frames; frame++, at += frameBytes) {
    // Shifted to the top, so that the sign is carried down.
    output[frame] = (((bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16)) << 8) >> 8) * factor;
  }
}
