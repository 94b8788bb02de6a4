// Numbers as they stand in the cells of a recording.
export type DecimalMark = '.' | ',';

const NUMBER = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;
const NOT_FINITE = /^\s*[+-]?(?:nan|inf|infinity)\s*$/i;
const COMMENT = /^\s*(?:#|\/\/|%)/;

/** null where a cell holds no number; NaN where it says that there is none, or an infinite one. */
export function readNumber(cell: string, mark: DecimalMark): number | null {
  if (mark === ',' && cell.includes('.')) return null;
  const text = mark === ',' ? cell.replace(',', '.') : cell;
  if (NUMBER.test(text)) return Number(text);
  return NOT_FINITE.test(text) ? Number.NaN : null;
}

/** Half of it is how much a number may be off for the digits that it was printed with. */
export function resolutionOf(cell: string): number {
  const [mantissa = '', exponent = '0'] = cell.trim().split(/[eE]/);
  const mark = mantissa.search(/[.,]/);
  return 10 ** (Number(exponent) - (mark === -1 ? 0 : mantissa.length - mark - 1));
}

export function isComment(cell: string): boolean {
  return COMMENT.test(cell);
}

/** Nothing on the line. */
export function isBlank(cells: readonly string[]): boolean {
  return cells.length === 1 && cells[0]!.trim() === '';
}
