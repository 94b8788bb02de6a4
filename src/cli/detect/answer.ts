// What `counterproof detect` prints: how the counter's own detector does on a recording of which the running times are known.
import { readFileSync, writeFileSync } from 'node:fs';
import { DETECTOR_DEFAULTS } from '../../counter/detector.js';
import { isRecordingError } from '../../vibration/recording/error.js';
import { openRecording } from '../../vibration/recording/open.js';
import type { Recording } from '../../vibration/recording/recording.js';
import { WINDOWS_A_SECOND, windowLevels } from '../../vibration/tuning/levels.js';
import { sweepPicture } from '../../vibration/tuning/picture.js';
import { type Sweep, sweep, type Tried, tryOut } from '../../vibration/tuning/sweep.js';
import { CAUTIONS } from '../print/cautions.js';
import type { DetectOutput } from '../schemas/detect.js';
import { detectText } from './text.js';
import { readTruth } from './truth.js';

export interface DetectOptions {
  readonly truth: string;
  readonly tool?: string;
  readonly sweep?: boolean;
  /** Where the picture of the sweep is written. */
  readonly picture?: string;
  readonly rate?: number;
  readonly fullScale?: number;
  readonly json?: boolean;
}

export type Answer = { readonly answer: string; readonly hasValue: boolean } | { readonly refusal: string };

export async function answerDetect(file: string, options: DetectOptions): Promise<Answer> {
  const { truth, tool, picture, rate: rateHz, fullScale } = options;
  if (picture !== undefined && options.sweep !== true)
    return { refusal: 'a picture is of a sweep: give --sweep as well\n' };
  const text = textOf(truth);
  if (typeof text !== 'string') return text;
  const read = readTruth(text, tool);
  if ('problem' in read) return { refusal: `${truth}: ${read.problem}\n` };
  const recording = await openRecording(file, { rateHz, fullScale });
  if (isRecordingError(recording)) return { refusal: `${recording.says}\n` };
  const recorded = await windowLevels(recording);
  if (recorded === null) return said(outputOf(file, truth, recording, null, null, null), options);
  const { levels } = recorded;
  const endS = levels.length / WINDOWS_A_SECOND;
  const beyond = read.marks.filter(({ stopS }) => stopS > endS + 1 / WINDOWS_A_SECOND);
  if (read.marks.every(({ startS }) => startS >= endS)) {
    return { refusal: `${truth}: no mark lies within the ${endS.toFixed(1)} s of ${file}; marks are in seconds\n` };
  }
  const own = beyond.length === 0 ? [] : [marksBeyond(beyond.length, endS)];
  let swept: Sweep | null = null;
  if (options.sweep === true) {
    try {
      swept = sweep(levels, read.marks);
    } catch (error) {
      if (error instanceof RangeError) return { refusal: `${file}: ${error.message}; cut the recording\n` };
      throw error;
    }
  }
  if (swept !== null && picture !== undefined) {
    const failed = write(picture, sweepPicture(file, swept));
    if (failed !== null) return failed;
  }
  const byDefault = swept?.byDefault ?? tryOut(levels, read.marks, DETECTOR_DEFAULTS);
  return said(
    { ...outputOf(file, truth, recording, byDefault, swept, endS), findings: [...recorded.findings, ...own] },
    options,
  );
}

function marksBeyond(count: number, endS: number): DetectOutput['findings'][number] {
  const says = `${count} of the marks reach beyond the ${endS.toFixed(1)} s that are used: what lies beyond is left out`;
  return { weight: 'doubts', what: 'marks-beyond', says };
}

function said(output: DetectOutput, { json }: DetectOptions): Answer {
  const answer = json === true ? `${JSON.stringify(output, null, 2)}\n` : detectText(output);
  return { answer, hasValue: output.byDefault !== null };
}

function outputOf(
  file: string,
  truth: string,
  recording: Recording,
  byDefault: Tried | null,
  swept: Sweep | null,
  durationS: number | null,
): DetectOutput {
  return {
    file,
    truth,
    durationS,
    byDefault: byDefault === null ? null : flat(byDefault),
    best: swept === null ? null : flat(swept.best),
    tried: swept?.tried.length ?? 0,
    findings: [...recording.findings],
    cautions: [...CAUTIONS],
  };
}

function flat({ settings, error }: Tried): NonNullable<DetectOutput['byDefault']> {
  const { trueMs, countedMs, triggerTimeErrorMs, falseMs, missedMs, falseBursts, missedBursts, shortBursts } = error;
  const { onLevelMm, offLevelMm, startAfter, stopAfter } = settings;
  return {
    settings: { onLevelMm, offLevelMm, startAfter, stopAfter },
    trueMs,
    countedMs,
    triggerTimeErrorMs,
    falseMs,
    missedMs,
    falseBursts,
    missedBursts,
    shortBursts,
  };
}

function textOf(file: string): string | { readonly refusal: string } {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    return {
      refusal: `${file}: the truth cannot be read: ${error instanceof Error ? error.message : String(error)}\n`,
    };
  }
}

function write(file: string, picture: string): { readonly refusal: string } | null {
  try {
    // Nothing that is there is lost.
    writeFileSync(file, picture, { flag: 'wx' });
    return null;
  } catch (error) {
    return {
      refusal: `${file}: the picture cannot be written: ${error instanceof Error ? error.message : String(error)}\n`,
    };
  }
}
