// Rows of cells in columns that line up, two spaces between them.
import { textColumns } from '../../show/replay/text-columns.js';

/** sides: for each column where its cells stand. No line ends in a space. */
export function inColumns(
  rows: readonly (readonly string[])[],
  sides: readonly ('left' | 'right')[],
): readonly string[] {
  const widths = sides.map((_, column) => Math.max(...rows.map((row) => textColumns(row[column] ?? ''))));
  return rows.map((row) =>
    sides
      .map((side, column) => {
        const cell = row[column] ?? '';
        const space = ' '.repeat((widths[column] ?? 0) - textColumns(cell));
        return side === 'left' ? cell + space : space + cell;
      })
      .join('  ')
      .trimEnd(),
  );
}
