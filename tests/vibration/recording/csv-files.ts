// CSV files of every kind that is read.
export interface CsvKind {
  readonly separator: ';' | '\t' | ',' | ' ';
  readonly mark: '.' | ',';
  /** Written around each cell. */
  readonly quoted: boolean;
  readonly unit: 'm/s²' | 'g';
  readonly time: 's' | 'ms' | 'none';
  readonly end: '\n' | '\r\n';
  readonly byteOrderMark: boolean;
}

export const USUAL: CsvKind = {
  separator: ';',
  mark: '.',
  quoted: false,
  unit: 'm/s²',
  time: 's',
  end: '\n',
  byteOrderMark: false,
};

export const RATE_HZ = 25_600;
const DIGITS = 6;

/** frames: x, y and z in m/s². With a comma as separator and decimal mark, cells must be quoted. */
export function csvFile(kind: CsvKind, frames: readonly (readonly number[])[], rateHz = RATE_HZ): string {
  const { separator, mark, unit, time, end, quoted } = kind;
  const cell = (text: string) => (quoted ? `"${text}"` : text);
  const number = (value: number, digits: number) => cell(value.toFixed(digits).replace('.', mark));
  const names = [
    ...(time === 'none' ? [] : [`time [${time}]`]),
    ...['x', 'y', 'z'].map((axis) => `a${axis} (${unit})`),
  ];
  const rows = frames.map((frame, at) => [
    ...(time === 'none' ? [] : [number(((time === 's' ? 1 : 1000) * at) / rateHz, 7)]),
    ...frame.map((value) => number(unit === 'g' ? value / 9.80665 : value, DIGITS)),
  ]);
  const lines = [names.map((name) => cell(separator === ' ' ? name.replace(' ', '') : name)), ...rows];
  return (kind.byteOrderMark ? '\ufeff' : '') + lines.map((line) => line.join(separator) + end).join('');
}
