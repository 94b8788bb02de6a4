// WAV files of every kind that is read, byte by byte.
import type { SampleType } from '../../../src/vibration/recording/wav/decode.js';

export interface WavKind {
  readonly type: SampleType;
  readonly channels: number;
  readonly rateHz: number;
  readonly container: 'RIFF' | 'RF64';
  readonly extensible: boolean;
}

export const BYTES: Readonly<Record<SampleType, number>> = { int16: 2, int24: 3, int32: 4, float32: 4, float64: 8 };
export const USUAL: WavKind = { type: 'int16', channels: 3, rateHz: 25_600, container: 'RIFF', extensible: false };

const SUBFORMAT_TAIL = '000000001000800000aa00389b71';

/** Everything up to the samples; dataBytes: as the header tells it. */
export function wavHead(kind: WavKind, dataBytes: number): Buffer {
  const { type, channels, rateHz, container, extensible } = kind;
  const bits = 8 * BYTES[type];
  const tag = type.startsWith('float') ? 3 : 1;
  const frameBytes = channels * BYTES[type];
  const format = Buffer.alloc(extensible ? 40 : 16);
  format.writeUInt16LE(extensible ? 0xfffe : tag, 0);
  format.writeUInt16LE(channels, 2);
  format.writeUInt32LE(rateHz, 4);
  format.writeUInt32LE(rateHz * frameBytes, 8);
  format.writeUInt16LE(frameBytes, 12);
  format.writeUInt16LE(bits, 14);
  if (extensible) {
    format.writeUInt16LE(22, 16);
    format.writeUInt16LE(bits, 18);
    format.writeUInt16LE(tag, 24);
    format.write(SUBFORMAT_TAIL, 26, 'hex');
  }
  const long = container === 'RF64';
  const ds64 = Buffer.alloc(28);
  const beforeData = 4 + (long ? 36 : 0) + 8 + format.length + 8;
  ds64.writeBigUInt64LE(BigInt(beforeData + dataBytes), 0);
  ds64.writeBigUInt64LE(BigInt(dataBytes), 8);
  const open = 0xffff_ffff;
  return Buffer.concat([
    Buffer.from(container),
    uint32(long ? open : Math.min(beforeData + dataBytes, open)),
    Buffer.from('WAVE'),
    ...(long ? [chunk('ds64', ds64)] : []),
    chunk('fmt ', format),
    Buffer.from('data'),
    uint32(long ? open : dataBytes),
  ]);
}

/** frames: one number a channel, of full scale. */
export function wavFile(kind: WavKind, frames: readonly (readonly number[])[], dataBytes?: number): Buffer {
  const samples = Buffer.concat(frames.flatMap((frame) => frame.map((value) => sample(kind.type, value))));
  return Buffer.concat([wavHead(kind, dataBytes ?? samples.length), samples]);
}

export function chunk(name: string, body: Buffer): Buffer {
  return Buffer.concat([Buffer.from(name), uint32(body.length), body, Buffer.alloc(body.length % 2)]);
}

function sample(type: SampleType, value: number): Buffer {
  const bytes = Buffer.alloc(BYTES[type]);
  if (type === 'float64') bytes.writeDoubleLE(value);
  else if (type === 'float32') bytes.writeFloatLE(value);
  else {
    const full = 2 ** (8 * bytes.length - 1);
    bytes.writeIntLE(Math.max(-full, Math.min(full - 1, Math.round(value * full))), 0, bytes.length);
  }
  return bytes;
}

function uint32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
}
