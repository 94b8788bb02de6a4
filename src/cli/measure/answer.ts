// What `counterproof measure` prints: each recording's values, each hand's, and the setting for a counter that follows from them.
import { existsSync, readFileSync, realpathSync } from 'node:fs';
import { renderProblem } from '../../scenario/render.js';
import { isRecordingError } from '../../vibration/recording/error.js';
import { openRecording } from '../../vibration/recording/open.js';
import type { Recording } from '../../vibration/recording/recording.js';
import { operationValue } from '../../vibration/setting/operation.js';
import { HANDS, type Hand, recommend } from '../../vibration/setting/recommend.js';
import { type Sheet, sheetFindings } from '../../vibration/setting/sheet.js';
import { measure } from '../../vibration/values/measure.js';
import { measureJson } from './output.js';
import { readSheet } from './read-sheet.js';
import type { FileResult, HandResult, MeasureResult } from './result.js';
import { measureText } from './text.js';

export interface MeasureOptions {
  readonly hand?: readonly string[];
  readonly sheet?: string;
  readonly rate?: number;
  readonly fullScale?: number;
  readonly json?: boolean;
}

export type Answer = { readonly answer: string; readonly allHaveValues: boolean } | { readonly refusal: string };

interface Asked {
  readonly file: string;
  readonly hand: Hand | null;
}

/** progress is told of the file and the part of it that was read, again and again. */
export async function answerMeasure(
  files: readonly string[],
  options: MeasureOptions,
  progress: (file: string, part: number) => void,
): Promise<Answer> {
  const asked = askedFiles(files, options.hand ?? []);
  if (typeof asked === 'string') return { refusal: `${asked}\n` };
  const sheet = options.sheet === undefined ? null : loadSheet(options.sheet);
  if (typeof sheet === 'string') return { refusal: sheet };
  const results: FileResult[] = [];
  const refusals: string[] = [];
  for (const { file, hand } of asked) {
    const recording = await openRecording(file, { rateHz: options.rate, fullScale: options.fullScale });
    if (isRecordingError(recording)) refusals.push(`${recording.says}\n`);
    else results.push(await measureFile(recording, file, hand, progress));
  }
  // Nothing is worked out from some of what was given.
  if (refusals.length > 0) return { refusal: refusals.join('') };
  const result = together(results, sheet, options.sheet ?? null);
  const allHaveValues = results.every(({ values }) => values !== null);
  return { answer: options.json === true ? measureJson(result) : measureText(result), allHaveValues };
}

function askedFiles(files: readonly string[], byHand: readonly string[]): readonly Asked[] | string {
  const told: Asked[] = [];
  for (const given of byHand) {
    const [, word, file] = /^(left|right)=(.+)$/s.exec(given) ?? [];
    const hand = HANDS.find((one) => one === word);
    if (hand === undefined || file === undefined) {
      return `--hand ${given}: write left=FILE or right=FILE`;
    }
    told.push({ file, hand });
  }
  if (told.length > 0 && files.length > 0) {
    return `of ${files.join(', ')} the hand is not told: with --hand, name every file so`;
  }
  if (told.length === 0 && files.length === 0)
    return 'which recordings? Name them, or --hand left=FILE --hand right=FILE';
  const asked = told.length > 0 ? told : files.map((file) => ({ file, hand: null }));
  const paths = asked.map(({ file }) => (existsSync(file) ? realpathSync(file) : file));
  const twice = asked.find((_, at) => paths.indexOf(paths[at]!) < at);
  return twice === undefined ? asked : `${twice.file} is named twice: a recording is one sample, of one hand`;
}

function loadSheet(file: string): Sheet | string {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    return `${file}: the sheet cannot be read: ${error instanceof Error ? error.message : String(error)}\n`;
  }
  const sheet = readSheet(text, file);
  return 'operator' in sheet ? sheet : sheet.map((problem) => `${renderProblem(problem)}\n`).join('');
}

async function measureFile(
  recording: Recording,
  file: string,
  hand: Hand | null,
  progress: (file: string, part: number) => void,
): Promise<FileResult> {
  // It is read twice.
  let pass = 0;
  const watched: Recording = {
    name: recording.name,
    rateHz: recording.rateHz,
    get bytes() {
      return recording.bytes;
    },
    get findings() {
      return recording.findings;
    },
    async *blocks() {
      for await (const block of recording.blocks()) {
        const { read, total } = recording.bytes;
        progress(file, (pass + (total === 0 ? 1 : read / total)) / 2);
        yield block;
      }
      pass = 1;
    },
  };
  const values = await measure(watched);
  return { file, hand, rateHz: recording.rateHz, values, findings: values?.findings ?? recording.findings };
}

function together(files: readonly FileResult[], sheet: Sheet | null, sheetFile: string | null): MeasureResult {
  const hands = [...HANDS, null].flatMap((hand): readonly HandResult[] => {
    const samples = files.flatMap(({ file, hand: of, values }) =>
      values === null || of !== hand ? [] : [{ name: file, total: values.total, durationS: values.durationS }],
    );
    return samples.length === 0 ? [] : [{ hand, files: samples.length, value: operationValue(samples) }];
  });
  const found = { file: sheetFile, findings: sheetFindings(sheet) };
  const all = [...files.flatMap(({ findings }) => findings), ...hands.flatMap(({ value }) => value.findings)];
  const setting = recommend(
    hands.map(({ hand, value, files: count }) => ({ hand, value, count })),
    sheet?.chainUncertainty ?? null,
    [...all, ...found.findings],
  );
  return { files, hands, sheet: found, setting };
}
