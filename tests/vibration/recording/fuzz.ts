// Damaged files by the thousand: each is refused with a sentence, or read to finite samples and findings from the closed list.
// A fault is a throw, a sample that is not finite, a block or a finding that breaks its contract, two readings that differ, or
// a file that takes too long.
import { RandomStream } from '../../../sim/kernel/random.js';
import { isRecordingError, type RecordingError } from '../../../src/vibration/recording/error.js';
import { FINDINGS } from '../../../src/vibration/recording/findings.js';
import { openRecording } from '../../../src/vibration/recording/open.js';
import type { Recording } from '../../../src/vibration/recording/recording.js';
import { windowLevels } from '../../../src/vibration/tuning/levels.js';
import { sweep } from '../../../src/vibration/tuning/sweep.js';
import { measure } from '../../../src/vibration/values/measure.js';
import { drawDamaged } from './damage.js';
import { folder } from './read-all.js';

export interface FuzzReport {
  readonly refused: number;
  readonly read: number;
  /** Of those read, the ones with samples. */
  readonly withSamples: number;
  /** Of those, the ones that have values. */
  readonly measured: number;
  /** How often each finding was made; a word that is missing here was never tried. */
  readonly found: Readonly<Record<string, number>>;
  readonly faults: readonly string[];
}

const MAX_FAULTS = 20;
/** A damaged file has some ten kilobytes; this is for a machine that is busy. */
const MAX_MS = 10_000;
const WEIGHTS = ['refuses', 'doubts', 'notes'];

export async function fuzzRecordings(count: number, seed: number): Promise<FuzzReport> {
  const files = folder();
  const random = RandomStream.named(seed, 'recordings');
  const report = {
    refused: 0,
    read: 0,
    withSamples: 0,
    measured: 0,
    found: {} as Record<string, number>,
    faults: [] as string[],
  };
  try {
    for (let tried = 0; tried < count && report.faults.length < MAX_FAULTS; tried++) {
      const path = files.write('damaged', drawDamaged(random));
      const options = random.chance(4, 5) ? { rateHz: 25_600, fullScale: 500 } : {};
      const started = performance.now();
      try {
        const recording = await openRecording(path, options);
        if (isRecordingError(recording)) {
          report.refused += 1;
          checkError(recording);
        } else {
          report.read += 1;
          const samples = await readTwice(recording);
          if (samples > 0) report.withSamples += 1;
          if (await hasValues(recording)) report.measured += 1;
          for (const { what } of recording.findings) report.found[what] = (report.found[what] ?? 0) + 1;
        }
        if (performance.now() - started > MAX_MS) throw new Error('it took too long');
      } catch (error) {
        report.faults.push(`seed ${seed}, file ${tried}: ${error instanceof Error ? error.stack : error}`);
      }
    }
  } finally {
    files.remove();
  }
  return report;
}

function checkError({ file, line, byte, says }: RecordingError): void {
  const placed = (place: number | null, least: number) => place === null || (Number.isInteger(place) && place >= least);
  if (!says.startsWith(file) || !/\. [A-Z]|tell no rate/.test(says))
    throw new Error(`not a sentence that helps: ${says}`);
  if (!placed(line, 1) || !placed(byte, 0)) throw new Error(`no place: ${line}, ${byte}`);
}

/** Measured, and looked at by the detector: every number is finite, and nothing is given where a finding refuses it. */
async function hasValues(recording: Recording): Promise<boolean> {
  const values = await measure(recording);
  const levels = await windowLevels(recording);
  if (levels !== null) sweep(levels.levels.slice(0, MOST_WINDOWS), [{ startS: 0, stopS: 1 }], FEW);
  if (recording.findings.some(({ weight }) => weight === 'refuses') && (values !== null || levels !== null)) {
    throw new Error('a value is given that a finding refuses');
  }
  for (const number of numbersIn([values, levels]))
    if (!Number.isFinite(number)) throw new Error(`a value of ${number}`);
  return values !== null;
}

const MOST_WINDOWS = 100;
const FEW = { onLevelsMm: [1000, 4000], offLevelsMm: [600], startAfter: [2], stopAfter: [5] };

function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

async function readTwice(recording: Recording): Promise<number> {
  const first = await readOnce(recording);
  const found = JSON.stringify(recording.findings);
  const second = await readOnce(recording);
  if (first.sum !== second.sum || first.count !== second.count) throw new Error('two readings differ');
  if (found !== JSON.stringify(recording.findings)) throw new Error('the findings of two readings differ');
  return first.count;
}

async function readOnce(recording: Recording): Promise<{ count: number; sum: number }> {
  if (!(recording.rateHz > 0 && Number.isFinite(recording.rateHz))) throw new Error(`a rate of ${recording.rateHz} Hz`);
  let count = 0;
  let sum = 0;
  for await (const { samples, length, begins } of recording.blocks()) {
    if (count === 0 && !begins) throw new Error('the first block begins no stretch');
    if (!(length >= 1 && length <= samples.x.length)) throw new Error(`a block of ${length}`);
    for (const axis of [samples.x, samples.y, samples.z]) {
      for (let at = 0; at < length; at++) {
        if (!Number.isFinite(axis[at])) throw new Error(`a sample of ${axis[at]}`);
        sum += axis[at]!;
      }
    }
    count += length;
  }
  for (const { weight, what, says } of recording.findings) {
    if (!(FINDINGS as readonly string[]).includes(what) || !WEIGHTS.includes(weight))
      throw new Error(`${weight} ${what}`);
    if (!/\w/.test(says) || /undefined|\[object|NaN Hz|NaN s|NaN ms|Infinity (?:s|ms|Hz|%)/.test(says))
      throw new Error(says);
  }
  if (count === 0 && !recording.findings.some(({ weight }) => weight === 'refuses')) throw new Error('nothing, unsaid');
  return { count, sum };
}
