// The known word that comes nearest to a misspelt one: the fewest letters added, dropped, changed, or swapped with a
// neighbour. Bounded, so that a file full of long nonsense costs nothing.

/** Longer words are not compared. */
const MAX_LETTERS = 60;
/** Of a longer list only so many words are compared. */
const MAX_WORDS = 500;

/** The nearest word, or null where none is near: at most one letter in three may differ, at least one always may. */
export function nearestWord(word: string, known: Iterable<string>): string | null {
  if (word.length > MAX_LETTERS) return null;
  let nearest: string | null = null;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  let compared = 0;
  for (const candidate of known) {
    if (compared === MAX_WORDS) break;
    compared += 1;
    if (Math.abs(candidate.length - word.length) >= least || candidate.length > MAX_LETTERS) continue;
    const letters = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (letters < least) {
      least = letters;
      nearest = candidate;
    }
  }
  return nearest;
}

/** Letters to add, drop, change, or swap with a neighbour, each at most once a place (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let twoBack: readonly number[] = [];
  let back = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      current.push(
        Math.min(
          at(back, column) + 1,
          at(current, column - 1) + 1,
          at(back, column - 1) + (same ? 0 : 1),
          swapped ? at(twoBack, column - 2) + 1 : Number.POSITIVE_INFINITY,
        ),
      );
    }
    twoBack = back;
    back = current;
  }
  return at(back, b.length);
}

function at(row: readonly number[], index: number): number {
  return row[index] ?? Number.POSITIVE_INFINITY;
}
