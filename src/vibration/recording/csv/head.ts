// The head of a CSV recording: which line names the columns, what separates them, how numbers are written.
import type { FileHandle } from 'node:fs/promises';
import { Refused } from '../error.js';
import { counted, finding } from '../findings.js';
import type { Finding } from '../recording.js';
import { type Column, countRoles, isUnitsRow, readColumns } from './columns.js';
import { linesOf } from './lines.js';
import { type DecimalMark, isBlank, isComment } from './numbers.js';
import type { RowShape } from './rows.js';
import { type Layout, SEPARATORS, splitLines } from './split.js';

export interface CsvHead {
  readonly layout: Layout;
  readonly shape: RowShape;
  readonly findings: readonly Finding[];
  /** Offset and number of the line after the header. */
  readonly from: number;
  readonly line: number;
}

/** Lines that are no comments, before the header; comments may be as many as they like. */
const MAX_LINES_BEFORE = 1000;
/** Rows from which it is told how numbers are written. */
const ROWS_LOOKED_AT = 100;
const BYTE_ORDER_MARK = Buffer.from([0xef, 0xbb, 0xbf]);
const EXAMPLE = '"time (s);x (m/s²);y (m/s²);z (m/s²)"';

interface Header {
  readonly names: readonly string[];
  readonly layout: Layout;
  readonly from: number;
  readonly line: number;
  readonly before: number;
}

/** Throws Refused. */
export async function readCsvHead(file: FileHandle): Promise<CsvHead> {
  const header = await findHeader(file);
  const rows = await firstLines(file, header.from);
  const layout = { ...header.layout, quoted: header.layout.quoted || rows.some((row) => row.includes('"')) };
  const split = splitLines(Buffer.from(rows.join('\n'), 'latin1'), layout).map((cells) => cells ?? []);
  const isRow = (cells: readonly string[]) => !isBlank(cells) && !isComment(cells[0] ?? '');
  const first = split.findIndex(isRow);
  const unitsAt = first !== -1 && isUnitsRow(header.names, split[first]!) ? first : -1;
  const [columns, assumed] = readColumns(header.names, unitsAt === -1 ? [] : split[unitsAt]!, header.line);
  const samples = split.slice(unitsAt + 1).filter(isRow);
  const width = header.names.length;
  const unitsBytes = rows.slice(0, unitsAt + 1).reduce((bytes, row) => bytes + row.length + 1, 0);
  return {
    layout,
    shape: { columns, width, mark: readMark(columns, samples, layout, width, header.line + 1) },
    findings: [...assumed, ...beforeFindings(header)],
    from: header.from + unitsBytes,
    line: header.line + 2 + unitsAt,
  };
}

async function findHeader(file: FileHandle): Promise<Header> {
  const { buffer } = await file.read(Buffer.alloc(BYTE_ORDER_MARK.length), 0, BYTE_ORDER_MARK.length, 0);
  let line = 0;
  let before = 0;
  const start = buffer.equals(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK.length : 0;
  for await (const { bytes, offset } of linesOf(file, start)) {
    let at = 0;
    do {
      const end = bytes.indexOf('\n', at);
      const text = bytes.toString('utf8', at, end === -1 ? bytes.length : end).replace(/\r$/, '');
      at = end === -1 ? bytes.length : end + 1;
      line += 1;
      if (text.trim() === '' || isComment(text)) continue;
      const found = readHeader(text);
      if (found !== null) return { ...found, from: offset + at, line, before };
      before += 1;
      if (before > MAX_LINES_BEFORE) throw noHeader(line);
    } while (at < bytes.length);
  }
  throw noHeader(line);
}

function noHeader(line: number): Refused {
  return new Refused(`no header names the columns up to here. Begin the file with a line such as ${EXAMPLE}`, {
    line: Math.max(line, 1),
  });
}

/** Of the separators, the one with which most columns have a meaning; null where the line is no header. */
function readHeader(text: string): Pick<Header, 'names' | 'layout'> | null {
  let best: Pick<Header, 'names' | 'layout'> | null = null;
  let most = 0;
  for (const separator of SEPARATORS) {
    const layout = { separator, quoted: text.includes('"') };
    // "x (g)" between blanks is one name.
    const joined = separator === ' ' ? text.replace(/\s+(?=[([{])/g, '') : text;
    const names = splitLines(joined, layout)[0] ?? [];
    const roles = countRoles(names);
    if (roles > most) [best, most] = [{ names, layout }, roles];
  }
  return best;
}

function beforeFindings({ before, line }: Header): Finding[] {
  if (before === 0) return [];
  const says = `${counted(before, 'line')} before the header (line ${line}) are neither comments nor samples, and are not read.`;
  return [finding('notes', 'lines-before-header', says)];
}

/** Without their ends, as latin1, so that a character is a byte. */
async function firstLines(file: FileHandle, from: number): Promise<string[]> {
  for await (const { bytes } of linesOf(file, from)) {
    return bytes.toString('latin1').split('\n').slice(0, ROWS_LOOKED_AT);
  }
  return [];
}

/** Throws Refused where commas separate and mark decimals. */
function readMark(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  { separator, quoted }: Layout,
  width: number,
  line: number,
): DecimalMark {
  if (
    separator === ',' &&
    !quoted &&
    rows.length > 0 &&
    rows.every(({ length }) => length > width && length <= 2 * width)
  ) {
    const says = 'rows have more cells than the header: commas separate columns and mark decimals at once';
    throw new Refused(`${says}. Export with semicolons between the columns`, { line });
  }
  const cells = rows.flatMap((row) => columns.map(({ index }) => row[index] ?? ''));
  const commas = cells.filter((cell) => cell.includes(',')).length;
  return commas > cells.filter((cell) => cell.includes('.')).length ? ',' : '.';
}
