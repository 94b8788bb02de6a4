// Files that are too long to write: sparse ones, and what reading them costs.
import { closeSync, ftruncateSync, openSync, writeSync } from 'node:fs';
import type { OpenOptions } from '../../../src/vibration/recording/open.js';
import { RATE_HZ } from './csv-files.js';
import { opened } from './read-all.js';
import { BYTES, type WavKind, wavHead } from './wav-files.js';

const ROWS_AT_ONCE = 10_000;

export interface Cost {
  readonly frames: number;
  readonly cpuS: number;
  /** Greatest resident memory seen while it was read, MB. */
  readonly residentMb: number;
}

/** A WAV file of so many frames that takes no room: zeros but for its head. */
export function writeSparseWav(path: string, kind: WavKind, frames: number): void {
  const dataBytes = frames * kind.channels * BYTES[kind.type];
  const head = wavHead(kind, dataBytes);
  const file = openSync(path, 'w');
  writeSync(file, head);
  ftruncateSync(file, head.length + dataBytes);
  closeSync(file);
}

/** A CSV file with a line of so many megabytes. */
export function writeEndless(path: string, before: string, megabytes: number, after: string): void {
  const file = openSync(path, 'w');
  writeSync(file, before);
  const megabyte = '7'.repeat(1_000_000);
  for (let written = 0; written < megabytes; written++) writeSync(file, megabyte);
  writeSync(file, after);
  closeSync(file);
}

/** A CSV file of so many rows with times, at RATE_HZ. */
export function writeLongCsv(path: string, rows: number): void {
  const file = openSync(path, 'w');
  writeSync(file, 'time (s);x (g);y (g);z (g)\n');
  const signals = [0.7, 0.31, 1.9];
  for (let from = 0; from < rows; from += ROWS_AT_ONCE) {
    const lines = Array.from({ length: Math.min(ROWS_AT_ONCE, rows - from) }, (_, row) => {
      const at = from + row;
      return [(at / RATE_HZ).toFixed(7), ...signals.map((signal) => (9 * Math.sin(signal * at)).toFixed(4))].join(';');
    });
    writeSync(file, `${lines.join('\n')}\n`);
  }
  closeSync(file);
}

export async function costOf(path: string, options: OpenOptions): Promise<Cost> {
  const started = process.cpuUsage();
  const recording = await opened(path, options);
  let frames = 0;
  let resident = 0;
  for await (const { length } of recording.blocks()) {
    frames += length;
    resident = Math.max(resident, process.memoryUsage.rss());
  }
  const { user, system } = process.cpuUsage(started);
  return { frames, cpuS: (user + system) / 1e6, residentMb: resident / 1e6 };
}
