// Reads a scenario from a path: the one place of src/scenario that touches the file system. Whatever is no text file of
// bearable size is a problem with a sentence, never a throw.
import { closeSync, fstatSync, openSync, readSync, type Stats, statSync } from 'node:fs';
import type { Problem } from './problem.js';
import { type Reading, readScenario } from './read.js';
import type { Words } from './words.js';

export const MAX_FILE_BYTES = 1_000_000;

export function readScenarioFile(path: string, words: Words): Reading {
  const text = readText(path);
  return typeof text === 'string' ? readScenario(text, path, words) : { ok: false, problems: [text] };
}

/** The text of a file in UTF-8, or why it is none. */
export function readText(path: string): string | Problem {
  let bytes: Uint8Array | Problem;
  try {
    bytes = readBytes(path);
  } catch (error) {
    return fileProblem(path, ...wordsFor((error as NodeJS.ErrnoException).code));
  }
  return bytes instanceof Uint8Array ? decode(path, bytes) : bytes;
}

function readBytes(path: string): Uint8Array | Problem {
  const before = whyNoFile(path, statSync(path));
  if (before !== null) return before;
  const descriptor = openSync(path, 'r');
  try {
    const opened = whyNoFile(path, fstatSync(descriptor));
    if (opened !== null) return opened;
    const buffer = new Uint8Array(MAX_FILE_BYTES + 1);
    let length = 0;
    for (let read = -1; read !== 0 && length <= MAX_FILE_BYTES; length += read) {
      read = readSync(descriptor, buffer, length, buffer.length - length, null);
    }
    return length > MAX_FILE_BYTES ? tooLarge(path) : buffer.subarray(0, length);
  } finally {
    closeSync(descriptor);
  }
}

function whyNoFile(path: string, stats: Stats): Problem | null {
  if (stats.isDirectory()) return fileProblem(path, 'this is a folder', 'name the scenario files in it, FOLDER/*.yaml');
  if (!stats.isFile()) return fileProblem(path, 'this is no ordinary file', 'a scenario is a YAML file');
  return stats.size > MAX_FILE_BYTES ? tooLarge(path) : null;
}

function tooLarge(path: string): Problem {
  return fileProblem(path, `the file is larger than ${MAX_FILE_BYTES} bytes`, 'no scenario is so large: split it');
}

function decode(path: string, bytes: Uint8Array): string | Problem {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return fileProblem(path, 'the file is in UTF-16', 'save it as UTF-8');
  }
  if (bytes.includes(0)) return fileProblem(path, 'this is a binary file', 'a scenario is YAML, a text in UTF-8');
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return fileProblem(path, 'this is no text in UTF-8', 'save the file as UTF-8');
  }
}

function wordsFor(code: string | undefined): readonly [string, string] {
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return ['there is no such file', 'the path of a scenario file'];
    case 'EACCES':
    case 'EPERM':
      return ['the file may not be read', 'a file that you may read'];
    default:
      return [`the file cannot be read (${code ?? 'unknown reason'})`, 'the path of a scenario file'];
  }
}

function fileProblem(file: string, message: string, expected: string): Problem {
  return { kind: 'file', place: { file, line: 1, column: 1 }, message, expected, nearest: null, excerpt: null };
}
