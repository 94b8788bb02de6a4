// Reads a recording as the tests look at it, and writes files for it.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isRecordingError, type RecordingError } from '../../../src/vibration/recording/error.js';
import { type OpenOptions, openRecording } from '../../../src/vibration/recording/open.js';
import type { Finding, Recording } from '../../../src/vibration/recording/recording.js';

type Frame = readonly [x: number, y: number, z: number];

export interface ReadAll {
  readonly rateHz: number;
  readonly stretches: Frame[][];
  readonly findings: readonly Finding[];
}

/** A folder for files, and what removes it. */
export function folder(): { readonly write: (name: string, content: string | Uint8Array) => string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'recording-'));
  return {
    write: (name, content) => {
      const file = join(path, name);
      writeFileSync(file, content);
      return file;
    },
    remove: () => rmSync(path, { recursive: true }),
  };
}

export async function opened(path: string, options: OpenOptions = {}): Promise<Recording> {
  const recording = await openRecording(path, options);
  if (isRecordingError(recording)) throw new Error(recording.says);
  return recording;
}

export async function refusal(path: string, options: OpenOptions = {}): Promise<RecordingError> {
  const recording = await openRecording(path, options);
  if (!isRecordingError(recording)) throw new Error('it was opened');
  return recording;
}

/** Arrays are used again from block to block, so it copies. */
export async function gather(recording: Recording): Promise<ReadAll> {
  const stretches: Frame[][] = [];
  for await (const { samples, length, begins } of recording.blocks()) {
    if (begins) stretches.push([]);
    const stretch = stretches.at(-1)!;
    for (let at = 0; at < length; at++) stretch.push([samples.x[at]!, samples.y[at]!, samples.z[at]!]);
  }
  return { rateHz: recording.rateHz, stretches, findings: recording.findings };
}

export async function readAll(path: string, options: OpenOptions = {}): Promise<ReadAll> {
  return gather(await opened(path, options));
}

/** weight and what, as "doubts gaps", in order. */
export function whats({ findings }: Pick<ReadAll, 'findings'>): string[] {
  return findings.map(({ weight, what }) => `${weight} ${what}`);
}

export function says({ findings }: Pick<ReadAll, 'findings'>, what: string): string {
  return findings.find((finding) => finding.what === what)?.says ?? '';
}
