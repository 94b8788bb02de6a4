// Files that were good, damaged as disks, transfers, editors and bad will damage them.
import type { RandomStream } from '../../../sim/kernel/random.js';
import type { SampleType } from '../../../src/vibration/recording/wav/decode.js';
import { type CsvKind, csvFile } from './csv-files.js';
import { wavFile } from './wav-files.js';

const TYPES: readonly SampleType[] = ['int16', 'int24', 'int32', 'float32', 'float64'];
/** At the highest, seven digits are too few. */
const CSV_RATES = [2000, 25_600, 8e6];
const MAX_FRAMES = 300;
const MAX_DAMAGES = 4;
/** What somebody or something may put anywhere into a text. */
const TOKENS = [
  'NaN',
  '-inf',
  '1e999',
  '1e-999',
  '0e99999',
  '-',
  '',
  '"',
  '""',
  ',',
  ';',
  '\t',
  ' ',
  '\r',
  '\n',
  '\r\n',
  '\0',
  '\ufeff',
  '#',
  '//',
  '%',
  '.',
  '..',
  '1.2.3',
  '0x10',
  '9'.repeat(400),
  '1'.repeat(70_000),
  '"\n"',
  'time',
  'x (g)',
  '(m/s²)',
  'é',
  '1,5',
  '\u2028',
];
/** Where headers of WAV files keep lengths and kinds. */
const HEADER_BYTES = 100;
const EDGES = [0, 1, 2, 3, 0x7f, 0x80, 0xfe, 0xff];

export function drawDamaged(random: RandomStream): Buffer {
  const wav = random.chance(1, 2);
  let bytes = wav ? drawWav(random) : drawCsv(random);
  const damages = random.within(0, MAX_DAMAGES);
  for (let damage = 0; damage < damages; damage++) bytes = damaged(random, bytes, wav);
  return bytes;
}

/** Signals that are lively, cut off, or still. */
function drawFrames(random: RandomStream, channels: number, scale: number): number[][] {
  const limit = random.chance(1, 4) ? 4000 : 10_000;
  const still = random.chance(1, 4) ? random.within(0, channels - 1) : -1;
  const value = (channel: number) =>
    channel === still ? 0 : Math.max(-limit, Math.min(limit, random.within(0, 20_000) - 10_000)) * (scale / 10_000);
  return Array.from({ length: random.within(0, MAX_FRAMES) }, () =>
    Array.from({ length: channels }, (_, at) => value(at)),
  );
}

function drawWav(random: RandomStream): Buffer {
  const kind = {
    type: pick(random, TYPES),
    channels: random.within(1, 5),
    rateHz: pick(random, [800, 2000, 25_600, 48_000]),
    container: pick(random, ['RIFF', 'RF64'] as const),
    extensible: random.chance(1, 2),
  };
  const length = random.chance(1, 5) ? pick(random, [0, 0xffff_ffff, 7]) : undefined;
  return wavFile(kind, drawFrames(random, kind.channels, 1), length);
}

function drawCsv(random: RandomStream): Buffer {
  const kind: CsvKind = {
    separator: pick(random, [';', '\t', ',', ' '] as const),
    mark: pick(random, ['.', ','] as const),
    quoted: random.chance(1, 3),
    unit: pick(random, ['m/s²', 'g'] as const),
    time: pick(random, ['s', 'ms', 'none'] as const),
    end: pick(random, ['\n', '\r\n'] as const),
    byteOrderMark: random.chance(1, 4),
  };
  return Buffer.from(csvFile(kind, drawFrames(random, 3, 100), pick(random, CSV_RATES)));
}

function damaged(random: RandomStream, bytes: Buffer, wav: boolean): Buffer {
  const at = random.within(0, bytes.length);
  const to = Math.min(bytes.length, at + random.within(1, 200));
  const before = bytes.subarray(0, at);
  const behind = bytes.subarray(to);
  switch (random.within(0, wav ? 7 : 6)) {
    case 0:
      return before;
    case 1:
      return Buffer.concat([before, behind]);
    case 2:
      return Buffer.concat([before, bytes.subarray(at, to), bytes.subarray(at, to), behind]);
    case 3:
      return Buffer.concat([before, Buffer.from(Array.from({ length: to - at }, () => random.within(0, 255))), behind]);
    case 4:
    case 5:
      return Buffer.concat([
        before,
        Buffer.from(pick(random, TOKENS)),
        random.chance(1, 2) ? behind : bytes.subarray(at),
      ]);
    case 6:
      return Buffer.concat([behind, before, bytes.subarray(at, to)]);
    default:
      return withEdge(random, bytes);
  }
}

function withEdge(random: RandomStream, bytes: Buffer): Buffer {
  const changed = Buffer.from(bytes);
  const at = random.within(0, HEADER_BYTES);
  const edge = pick(random, EDGES);
  return changed.fill(edge, Math.min(at, changed.length), Math.min(at + pick(random, [1, 2, 4, 8]), changed.length));
}

function pick<T>(random: RandomStream, values: readonly T[]): T {
  return values[random.within(0, values.length - 1)]!;
}
