// Files of any kind: told apart by what they hold; what cannot be read is a value, what the caller did wrong throws.
import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openRecording } from '../../../src/vibration/recording/open.js';
import { csvFile, USUAL } from './csv-files.js';
import { folder, opened, readAll, refusal, whats } from './read-all.js';
import { USUAL as WAV, wavFile } from './wav-files.js';

const files = folder();
afterAll(files.remove);

const FRAMES = [
  [1, 2, 3],
  [2, 3, 4],
  [1, 1, 1],
];

describe('a file', () => {
  it('is told by what it holds, not by its name', async () => {
    expect((await readAll(files.write('w.csv', wavFile(WAV, FRAMES)), { fullScale: 1 })).stretches[0]!.length).toBe(3);
    expect((await readAll(files.write('c.wav', csvFile(USUAL, FRAMES)))).stretches[0]!.length).toBe(3);
  });

  it.each([
    ['empty', '', 0, /it is empty/],
    ['in UTF-16', Buffer.from('\ufefftime;x\n', 'utf16le'), 0, /Save it as UTF-8/],
    ['neither CSV nor WAV', Buffer.from([80, 75, 3, 4, 20, 0, 6]), 5, /neither CSV nor WAV/],
  ])('that is %s is refused', async (_, content, byte, says) => {
    const error = await refusal(files.write('bad', content));
    expect(error).toMatchObject({ byte, line: null });
    expect(error.says).toMatch(says);
  });

  it('that is not there, is a folder or a pipe is refused, without waiting for somebody who writes', async () => {
    const path = files.write('there.csv', 'x');
    expect((await refusal(`${path}.not`)).says).toContain('there is no such file');
    expect((await refusal(dirname(path))).says).toContain('it is no file');
    const pipe = join(dirname(path), 'pipe');
    execFileSync('mkfifo', [pipe]);
    expect((await refusal(pipe)).says).toContain('it is no file');
  });

  it('that goes away or shrinks while it is read is found out', async () => {
    const path = files.write('w.wav', wavFile(WAV, FRAMES));
    const recording = await opened(path, { fullScale: 1 });
    writeFileSync(path, wavFile(WAV, FRAMES).subarray(0, 50));
    for await (const { length } of recording.blocks()) expect(length).toBe(1);
    expect(whats(recording)).toContain('doubts truncated');
    rmSync(path);
    for await (const _ of recording.blocks()) expect.unreachable();
    expect(whats(recording)).toContain('refuses reading-failed');
    files.write('w.wav', wavFile(WAV, FRAMES));
    for await (const { length } of recording.blocks()) expect(length).toBe(3);
    expect(whats(recording)).not.toContain('refuses reading-failed');
  });

  it('that changes between two readings has no value', async () => {
    const path = files.write('w.wav', wavFile(WAV, FRAMES));
    const recording = await opened(path, { fullScale: 1 });
    for await (const { length } of recording.blocks()) expect(length).toBe(3);
    expect(whats(recording)).not.toContain('refuses changed');
    writeFileSync(path, wavFile(WAV, FRAMES).subarray(0, 50));
    for await (const { length } of recording.blocks()) expect(length).toBe(1);
    expect(whats(recording)).toContain('refuses changed');
  });
});

it('options out of their range throw', async () => {
  const path = files.write('c.csv', csvFile(USUAL, FRAMES));
  for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    await expect(openRecording(path, { rateHz: value })).rejects.toThrow(RangeError);
    await expect(openRecording(path, { fullScale: value })).rejects.toThrow(RangeError);
  }
});

it('a reader may leave before the end, and read again', async () => {
  const recording = await opened(files.write('c.csv', csvFile(USUAL, FRAMES)));
  for await (const { length } of recording.blocks()) {
    expect(length).toBe(3);
    break;
  }
  const lengths: number[] = [];
  for await (const { length } of recording.blocks()) lengths.push(length);
  expect(lengths).toEqual([3]);
});
