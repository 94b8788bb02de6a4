// WAV recordings: what is written is read back within its steps, and a header that lies is found out.
import fc from 'fast-check';
import { afterAll, describe, expect, it, vi } from 'vitest';
import type { SampleType } from '../../../../src/vibration/recording/wav/decode.js';
import { WAV_BLOCK_FRAMES } from '../../../../src/vibration/recording/wav/wav.js';
import { folder, gather, opened, readAll, refusal, says, whats } from '../read-all.js';
import { BYTES, chunk, USUAL, type WavKind, wavFile, wavHead } from '../wav-files.js';

vi.setConfig({ testTimeout: 120_000 });

const FULL_SCALE = 500;
const WITH_SCALE = { fullScale: FULL_SCALE };
const TYPES: readonly SampleType[] = ['int16', 'int24', 'int32', 'float32', 'float64'];
/** Of full scale: half a step of whole numbers, and the bits of floats. */
const STEPS: Readonly<Record<SampleType, number>> = {
  int16: 2 ** -15,
  int24: 2 ** -23,
  int32: 2 ** -31,
  float32: 2 ** -24,
  float64: 0,
};

const files = folder();
afterAll(files.remove);

function frames(count: number): number[][] {
  return Array.from({ length: count }, (_, at) => [
    0.5 * Math.sin(at * 0.7),
    0.3 * Math.cos(at * 0.31),
    0.1 * Math.sin(at),
  ]);
}
const LONG = frames(USUAL.rateHz);

function read(content: Buffer) {
  return readAll(files.write('a.wav', content), WITH_SCALE);
}

describe('what is written is read back', () => {
  const value = fc.double({ min: -1, max: 0.999, noNaN: true });
  const kinds = fc.record<WavKind>({
    type: fc.constantFrom(...TYPES),
    channels: fc.integer({ min: 1, max: 5 }),
    rateHz: fc.integer({ min: 1, max: 200_000 }),
    container: fc.constantFrom('RIFF', 'RF64'),
    extensible: fc.boolean(),
  });

  it('in each width, container and number of channels', async () => {
    const files5 = fc.array(fc.tuple(value, value, value, value, value), { minLength: 1, maxLength: 50 });
    const property = fc.asyncProperty(kinds, files5, async (kind, all) => {
      const sent = all.map((frame) => frame.slice(0, kind.channels));
      const got = await read(wavFile(kind, sent));
      expect(got.rateHz).toBe(kind.rateHz);
      expect(got.stretches.map(({ length }) => length)).toEqual([sent.length]);
      for (const [at, frame] of sent.entries()) {
        for (const axis of [0, 1, 2]) {
          const off = Math.abs(got.stretches[0]![at]![axis]! - FULL_SCALE * (frame[axis] ?? 0));
          expect(off).toBeLessThanOrEqual(FULL_SCALE * STEPS[kind.type]);
        }
      }
      expect(whats(got).includes('notes channels-ignored')).toBe(kind.channels > 3);
      expect(whats(got).includes('doubts axes-missing')).toBe(kind.channels < 3);
    });
    await fc.assert(property, { numRuns: 200 });
  });

  it.each(TYPES)('over the ends of blocks, twice the same, with nothing to say of a good file: %s', async (type) => {
    const sent = frames(WAV_BLOCK_FRAMES + 1001);
    const recording = await opened(files.write('a.wav', wavFile({ ...USUAL, type }, sent)), WITH_SCALE);
    const got = await gather(recording);
    expect(got.findings).toEqual([]);
    expect(got.stretches.length).toBe(1);
    expect(got.stretches[0]!.length).toBe(sent.length);
    for (const at of [0, WAV_BLOCK_FRAMES - 1, WAV_BLOCK_FRAMES, sent.length - 1]) {
      expect(Math.abs(got.stretches[0]![at]![2]! - FULL_SCALE * sent[at]![2]!)).toBeLessThanOrEqual(
        FULL_SCALE * STEPS[type],
      );
    }
    expect(recording.bytes).toEqual({ read: recording.bytes.total, total: recording.bytes.total });
    expect(await gather(recording)).toEqual(got);
  });

  it('behind chunks that mean nothing here, of odd length too, and before others', async () => {
    const whole = wavFile(USUAL, LONG);
    const padded = Buffer.concat([
      whole.subarray(0, 12),
      chunk('JUNK', Buffer.alloc(4096)),
      chunk('bext', Buffer.alloc(13)),
      whole.subarray(12),
      chunk('LIST', Buffer.alloc(10)),
    ]);
    const got = await read(padded);
    expect(got.findings).toEqual([]);
    expect(got.stretches[0]!.length).toBe(LONG.length);
  });
});

describe('the length', () => {
  it('that is longer than the file is doubted', async () => {
    const got = await read(wavFile(USUAL, LONG).subarray(0, -6 * 100 - 1));
    expect(got.stretches[0]!.length).toBe(LONG.length - 101);
    expect(whats(got)).toEqual(['doubts too-short', 'doubts truncated'].sort().reverse());
    expect(says(got, 'truncated')).toContain('promises 25600 frames, and there are 25499');
  });

  it.each([0, 0xffff_ffff])('%d, as a writer leaves it that cannot go back, reads to the end', async (length) => {
    const got = await read(wavFile(USUAL, LONG, length));
    expect(got.stretches[0]!.length).toBe(LONG.length);
    expect(whats(got)).toEqual(['notes length-unknown']);
    const cut = await read(Buffer.concat([wavFile(USUAL, LONG, length), Buffer.alloc(5)]));
    expect(whats(cut)).toEqual(['notes length-unknown', 'doubts truncated']);
  });

  it('of 0 is believed where the length of the whole was written', async () => {
    const empty = wavFile(USUAL, []);
    const list = chunk('LIST', Buffer.alloc(60));
    empty.writeUInt32LE(empty.length - 8 + list.length, 4);
    expect(whats(await read(Buffer.concat([empty, list])))).toEqual(['refuses empty']);
  });
});

describe('samples that are not finite or not possible', () => {
  it('are left out and end the stretch, wherever they stand', async () => {
    const sent = LONG.map((frame) => [...frame]);
    const last = sent.length - 1;
    for (const [at, axis, value] of [
      [0, 0, Number.NaN],
      [5, 1, Number.POSITIVE_INFINITY],
      [6, 2, 1e30],
      [last, 0, Number.NaN],
    ] as const)
      sent[at]![axis] = value;
    const got = await read(wavFile({ ...USUAL, type: 'float32' }, sent));
    expect(got.stretches.map(({ length }) => length)).toEqual([4, last - 7]);
    expect(says(got, 'samples-impossible')).toContain(
      '4 samples not finite or beyond 1000000 m/s²: NaN at 0 s; Infinity at 0.0001953 s',
    );
  });

  it('may stand at the end of a block', async () => {
    const sent = frames(WAV_BLOCK_FRAMES + 10);
    sent[WAV_BLOCK_FRAMES - 1]![0] = Number.NaN;
    const got = await read(wavFile({ ...USUAL, type: 'float64' }, sent));
    expect(got.stretches.map(({ length }) => length)).toEqual([WAV_BLOCK_FRAMES - 1, 10]);
  });

  it('may be all there is', async () => {
    const got = await read(wavFile({ ...USUAL, type: 'float64' }, [[Number.NaN, 0, 0]]));
    expect(whats(got)).toEqual(['doubts samples-impossible', 'refuses empty']);
  });
});

describe('a file is refused', () => {
  const good = wavFile(USUAL, frames(10));
  const changed = (change: (bytes: Buffer) => void) => {
    const bytes = Buffer.from(good);
    change(bytes);
    return bytes;
  };

  it.each([
    ['without a full scale', good, /--full-scale 500/, {}],
    [
      'of another kind of RIFF',
      changed((bytes) => bytes.write('AVI ', 8)),
      /byte 8: it begins like a WAV file and is none/,
      WITH_SCALE,
    ],
    ['with 8 bits', changed((bytes) => bytes.writeUInt16LE(8, 34)), /format 1, 8 bits/, WITH_SCALE],
    ['that is compressed', changed((bytes) => bytes.writeUInt16LE(0x55, 20)), /format 85, 16 bits/, WITH_SCALE],
    ['with no channel', changed((bytes) => bytes.writeUInt16LE(0, 22)), /0 channels/, WITH_SCALE],
    ['with frames of no sense', changed((bytes) => bytes.writeUInt16LE(7, 32)), /do not make 7 bytes/, WITH_SCALE],
    ['with no rate', changed((bytes) => bytes.writeUInt32LE(0, 24)), /0 Hz is no rate/, WITH_SCALE],
    ['that ends in its header', good.subarray(0, 30), /its format is cut short/, WITH_SCALE],
    ['without samples', good.subarray(0, 36), /byte 36: it ends before its samples begin/, WITH_SCALE],
    [
      'whose samples come first',
      Buffer.concat([good.subarray(0, 12), good.subarray(36)]),
      /come before their format/,
      WITH_SCALE,
    ],
  ])('%s', async (_, content, says, options) => {
    const error = await refusal(files.write('bad.wav', content), options);
    expect(error.says).toMatch(says);
    expect(error.says).toMatch(/\. [A-Z]/);
  });
});

it('a header needs as many bytes as it says', () => {
  // Guards the test's own writer: 12 + 24 + 8 bytes.
  expect(wavHead(USUAL, 0).length).toBe(44);
  expect(wavFile(USUAL, [[0, 0, 0]]).length).toBe(44 + 3 * BYTES.int16);
});
