import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { MAX_FILE_BYTES, readScenarioFile } from '../../src/scenario/file.js';
import { scenarioText } from './reading.js';
import { WORDS } from './words.js';

const folder = mkdtempSync(join(tmpdir(), 'scenario-'));
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

function problemOf(path: string) {
  const reading = readScenarioFile(path, WORDS);
  return reading.ok ? null : reading.problems.map(({ kind, message, place }) => [kind, message, place.file]);
}

describe('readScenarioFile', () => {
  it('reads a scenario, also one with a byte order mark', () => {
    const plain = readScenarioFile(fileOf('good.yaml', scenarioText()), WORDS);
    const marked = readScenarioFile(fileOf('marked.yaml', `\ufeff${scenarioText()}`), WORDS);
    expect(plain.ok && marked.ok && marked.scenario.runs).toEqual(plain.ok && plain.scenario.runs);
    expect(plain.ok).toBe(true);
  });

  it.each([
    ['a folder', () => folder, 'this is a folder'],
    ['nothing', () => join(folder, 'none.yaml'), 'there is no such file'],
    ['a path through a file', () => join(fileOf('f.yaml', 'x'), 'y.yaml'), 'there is no such file'],
    ['a path with a zero byte', () => 'a\0b', 'the file cannot be read (ERR_INVALID_ARG_VALUE)'],
    [
      'a binary file',
      () => fileOf('binary.yaml', new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0])),
      'this is a binary file',
    ],
    ['Latin-1', () => fileOf('latin.yaml', new Uint8Array([0x61, 0x3a, 0x20, 0xe4])), 'this is no text in UTF-8'],
    [
      'UTF-16, little end first',
      () => fileOf('le.yaml', new Uint8Array([0xff, 0xfe, 0x61, 0])),
      'the file is in UTF-16',
    ],
    ['UTF-16, big end first', () => fileOf('be.yaml', new Uint8Array([0xfe, 0xff, 0, 0x61])), 'the file is in UTF-16'],
    [
      'a file too large',
      () => fileOf('large.yaml', `#${' '.repeat(MAX_FILE_BYTES)}`),
      'the file is larger than 1000000 bytes',
    ],
  ])('tells of %s', (_, make, message) => {
    const path = make();
    expect(problemOf(path)).toEqual([['file', message, path]]);
  });

  it('reads a file of just the largest size', () => {
    const text = scenarioText();
    const path = fileOf('largest.yaml', `${text}#${' '.repeat(MAX_FILE_BYTES - 1 - Buffer.byteLength(text))}`);
    expect(problemOf(path)).toBeNull();
  });

  it.skipIf(process.platform === 'win32')('does not wait for a pipe', () => {
    const path = join(folder, 'pipe.yaml');
    execFileSync('mkfifo', [path]);
    expect(problemOf(path)).toEqual([['file', 'this is no ordinary file', path]]);
  });
});
