// A recording in a CSV file: read row after row, gathered into blocks, the arrays used again.
import { type FileHandle, open } from 'node:fs/promises';
import { Refused } from '../error.js';
import { finding, shown } from '../findings.js';
import { GREATEST_RATE_HZ } from '../limits.js';
import type { Block, Finding } from '../recording.js';
import type { Pass, Source } from '../streamed.js';
import { Clock, type Pace, paceOf, type Stamp } from './clock.js';
import { type CsvHead, readCsvHead } from './head.js';
import { linesOf } from './lines.js';
import { isComment, readNumber, resolutionOf } from './numbers.js';
import { axesOf, GREATEST_TIME_S, type Judgement, Rows } from './rows.js';
import { splitLines } from './split.js';

export const CSV_BLOCK_ROWS = 65_536;
/** Rows of which the times tell the rate. */
const ROWS_TIMED = 20_000;
/** In place of the cells of a line that is too long. */
const TOO_LONG: readonly string[] = [];
/** Lines in which they are looked for. */
const LINES_TIMED = 40_000;
/** Of the rate: a given one that differs more from that of the time column contradicts it. */
const CONTRADICTING_PART = 0.01;

/** rateHz: for a file without times. Throws Refused. */
export async function openCsv(file: FileHandle, path: string, fileBytes: number, rateHz?: number): Promise<Source> {
  const head = await readCsvHead(file);
  const timed = head.shape.columns.some(({ role }) => role === 'time');
  if (!timed && rateHz === undefined) {
    throw new Refused('no column is named time, and no rate is given. State it in Hz: --rate 25600, for instance', {
      line: head.line - 1,
    });
  }
  const pace = timed ? await readPace(file, head) : null;
  return {
    name: path,
    rateHz: pace === null ? rateHz! : rateOf(pace),
    totalBytes: fileBytes,
    axes: axesOf(head.shape.columns),
    fullScale: null,
    findings: [...head.findings, ...(pace === null ? [] : contradiction(rateOf(pace), rateHz))],
    pass: () => new CsvPass(path, head, pace),
  };
}

/** 1/(1/rate) of a whole rate may be off by its last bit. */
function rateOf({ step }: Pace): number {
  const whole = Math.round(1 / step);
  return 1 / whole === step ? whole : 1 / step;
}

function contradiction(timedHz: number, givenHz: number | undefined): Finding[] {
  if (givenHz === undefined || Math.abs(givenHz / timedHz - 1) <= CONTRADICTING_PART) return [];
  const says = `Its times tell ${shown(timedHz)} Hz, and ${shown(givenHz)} Hz is given: the times count. Leave the rate away, or correct it.`;
  return [finding('doubts', 'rate-contradicted', says)];
}

/** Throws Refused. */
async function readPace(file: FileHandle, head: CsvHead): Promise<Pace> {
  const { index, factor } = head.shape.columns.find(({ role }) => role === 'time')!;
  const stamps: Stamp[] = [];
  let lines = 0;
  for await (const { bytes } of linesOf(file, head.from)) {
    for (const cells of splitLines(bytes, head.layout)) {
      const cell = cells?.[index];
      const number = cell === undefined || isComment(cells![0]!) ? null : readNumber(cell, head.shape.mark);
      const time = (number ?? Number.NaN) * factor;
      if (Math.abs(time) <= GREATEST_TIME_S) stamps.push({ time, resolution: resolutionOf(cell!) * factor });
      lines += 1;
    }
    if (stamps.length >= ROWS_TIMED || lines >= LINES_TIMED) break;
  }
  const pace = paceOf(stamps);
  if (pace === null || 1 / pace.step > GREATEST_RATE_HZ) {
    throw new Refused('the times of the first rows tell no rate: they must be numbers that grow from row to row', {
      line: head.line,
    });
  }
  return pace;
}

class CsvPass implements Pass {
  bytesRead = 0;
  private readonly rows: Rows;
  private readonly arrays = { x: newArray(), y: newArray(), z: newArray() };
  private length = 0;
  private begins = true;
  private ended = false;

  constructor(
    private readonly path: string,
    private readonly head: CsvHead,
    pace: Pace | null,
  ) {
    this.rows = new Rows(head.shape, pace === null ? null : new Clock(pace));
  }

  async *blocks(): AsyncGenerator<Block> {
    const { head, rows } = this;
    const file = await open(this.path);
    try {
      let line = head.line;
      for await (const { bytes, tooLong, read } of linesOf(file, head.from)) {
        this.bytesRead = read;
        const split = tooLong ? [TOO_LONG] : splitLines(bytes, head.layout);
        for (const cells of split) {
          const judgement = cells === TOO_LONG ? rows.tooLong(line) : rows.judge(cells, line);
          line += 1;
          if (judgement === 'none') continue;
          const ready = this.length === CSV_BLOCK_ROWS || (judgement !== 'follows' && this.length > 0);
          if (ready) yield this.handOn();
          this.take(judgement);
        }
      }
      if (this.length > 0) yield this.handOn();
    } finally {
      await file.close();
    }
    this.ended = true;
  }

  findings(): readonly Finding[] {
    return this.rows.findings(this.ended);
  }

  private take(judgement: Judgement): void {
    if (judgement !== 'follows') this.begins = true;
    if (judgement === 'bad') return;
    const { arrays, length } = this;
    const { x, y, z } = this.rows.sample;
    arrays.x[length] = x;
    arrays.y[length] = y;
    arrays.z[length] = z;
    this.length += 1;
  }

  private handOn(): Block {
    const { arrays, length, begins } = this;
    this.length = 0;
    this.begins = false;
    return { samples: arrays, length, begins };
  }
}

function newArray(): Float64Array {
  return new Float64Array(CSV_BLOCK_ROWS);
}
