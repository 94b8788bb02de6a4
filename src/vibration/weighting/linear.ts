// Least squares for a few unknowns.

/**
 * The unknowns that make the sum over all rows of (row · unknowns − right)² least. Rows of equal length, at least as many as
 * unknowns; throws where they leave an unknown open.
 */
export function leastSquares(rows: readonly (readonly number[])[], rights: readonly number[]): number[] {
  const size = rows[0]?.length ?? 0;
  const normal = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size + 1 }, (_, j) =>
      rows.reduce((sum, row, at) => sum + row[i]! * (j === size ? rights[at]! : row[j]!), 0),
    ),
  );
  return solved(normal);
}

/** Gauss elimination with the largest pivot of each column; the last column is the right side. */
function solved(matrix: number[][]): number[] {
  const size = matrix.length;
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let row = column + 1; row < size; row++) {
      if (Math.abs(matrix[row]![column]!) > Math.abs(matrix[best]![column]!)) best = row;
    }
    [matrix[column], matrix[best]] = [matrix[best]!, matrix[column]!];
    const pivot = matrix[column]!;
    if (pivot[column] === 0) throw new Error('the rows leave an unknown open');
    for (let row = 0; row < size; row++) {
      if (row === column) continue;
      const factor = matrix[row]![column]! / pivot[column]!;
      for (let at = column; at <= size; at++) matrix[row]![at] = matrix[row]![at]! - factor * pivot[at]!;
    }
  }
  return matrix.map((row, at) => row[size]! / row[at]!);
}
