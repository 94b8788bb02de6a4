// Lines into cells, by csv-parse.
import { CsvError, parse } from 'csv-parse/sync';

export const SEPARATORS = [';', '\t', ',', ' '] as const;
export type Separator = (typeof SEPARATORS)[number];

export interface Layout {
  /** A blank stands for any number of blanks and tabs. */
  readonly separator: Separator;
  /** Whether cells stand in double quotes. */
  readonly quoted: boolean;
}

/**
 * Cells by line; null for a line that cannot be split, for its quotes. Lines with quotes go one by one, so that a quote that is
 * left open swallows no line but its own.
 */
export function splitLines(text: Buffer | string, { separator, quoted }: Layout): (readonly string[] | null)[] {
  if (quoted) {
    const lines = text.toString().split('\n');
    if (lines.at(-1) === '') lines.pop();
    return lines.map((line) => splitQuoted(line.replace(/\r$/, ''), separator));
  }
  return parse(separator === ' ' ? squeezed(text.toString()) : text, { ...OPTIONS, delimiter: separator, quote: null });
}

/** Cells that are wanting or too many are the rows' to judge; an empty line is a row of one empty cell, so that lines can be counted. */
const OPTIONS = { relax_column_count: true, relax_quotes: true, record_delimiter: ['\r\n', '\n'] };

function splitQuoted(line: string, separator: Separator): readonly string[] | null {
  try {
    return (
      parse(separator === ' ' ? squeezed(line) : line, { ...OPTIONS, delimiter: separator, quote: '"' })[0] ?? ['']
    );
  } catch (error) {
    if (error instanceof CsvError) return null;
    throw error;
  }
}

function squeezed(text: string): string {
  return text.replace(/[ \t]+/g, ' ').replace(/^ | (?=\r?$)/gm, '');
}
