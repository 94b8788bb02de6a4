// Known running times of a recording, as a person wrote them down beside it: JSON, [{"startS": 1.5, "stopS": 9}], or CSV with a
// header that names startS and stopS.

/** The tool ran from startS up to stopS, seconds since the recording began. */
export interface Mark {
  readonly startS: number;
  readonly stopS: number;
}

/** The marks, in order and apart from each other, or a sentence that says what is wrong with the text. */
export type MarksRead = { readonly marks: readonly Mark[] } | { readonly problem: string };

const MOST_MARKS = 10_000;
const MOST_LETTERS = 1_000_000;
const EXPECTED = 'marks are CSV with the header startS,stopS, or JSON such as [{"startS": 1.5, "stopS": 9}]';
const SEPARATORS = [';', '\t', ','] as const;

/** text: of a file; a line that begins with # is a comment in CSV. */
export function readMarks(text: string): MarksRead {
  if (text.length > MOST_LETTERS) return { problem: `the file is longer than ${MOST_LETTERS} letters: ${EXPECTED}` };
  const plain = text.replace(/^\ufeff/, '').trim();
  const rows = plain.startsWith('[') ? fromJson(plain) : fromCsv(plain);
  return typeof rows === 'string' ? { problem: rows } : checked(rows);
}

interface Row extends Mark {
  /** "line 3", "mark 3" */
  readonly where: string;
}

function fromJson(text: string): readonly Row[] | string {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return `this is no JSON: ${EXPECTED}`;
  }
  if (!Array.isArray(parsed)) return EXPECTED;
  return parsed.map((one: unknown, index) => {
    const { startS, stopS } = (typeof one === 'object' && one !== null ? one : {}) as Record<string, unknown>;
    return { where: `mark ${index + 1}`, startS: numberOr(startS), stopS: numberOr(stopS) };
  });
}

function numberOr(value: unknown): number {
  return typeof value === 'number' ? value : Number.NaN;
}

function fromCsv(text: string): readonly Row[] | string {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line, index) => ({ line: line.trim(), where: `line ${index + 1}` }))
    .filter(({ line }) => line !== '' && !line.startsWith('#'));
  const header = lines[0]?.line ?? '';
  const separator = SEPARATORS.find((one) => header.includes(one)) ?? ',';
  const names = header.split(separator).map((name) => name.trim());
  const [start, stop] = [names.indexOf('startS'), names.indexOf('stopS')];
  if (start === -1 || stop === -1) return EXPECTED;
  return lines.slice(1).map(({ line, where }) => {
    const cells = line.split(separator);
    return { where, startS: decimal(cells[start], separator), stopS: decimal(cells[stop], separator) };
  });
}

/** A comma may stand for the point where it separates nothing. */
function decimal(cell: string | undefined, separator: string): number {
  const text = (cell ?? '').trim();
  const point = separator === ',' ? text : text.replace(',', '.');
  return /^\d{1,9}(?:\.\d{1,9})?$/.test(point) ? Number(point) : Number.NaN;
}

function checked(rows: readonly Row[]): MarksRead {
  if (rows.length === 0) return { problem: `there is no mark: ${EXPECTED}` };
  if (rows.length > MOST_MARKS) return { problem: `there are more than ${MOST_MARKS} marks` };
  let beforeS = 0;
  for (const { where, startS, stopS } of rows) {
    if (!Number.isFinite(startS) || !Number.isFinite(stopS) || startS < 0) {
      return { problem: `${where} has no start and stop in seconds, such as 1.5 and 9` };
    }
    if (stopS <= startS) return { problem: `${where} stops at ${stopS} s, not after its start at ${startS} s` };
    if (startS < beforeS) return { problem: `${where} starts at ${startS} s, before the mark above it has stopped` };
    beforeS = stopS;
  }
  return { marks: rows.map(({ startS, stopS }) => ({ startS, stopS })) };
}
