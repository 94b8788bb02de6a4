// The matrix of canaries and invariants, as text.

import { THROWS } from './finding.js';
import { INVARIANT_NAMES } from './invariants.js';
import type { Caught, Matrix, Row } from './rows.js';

export function printed(matrix: Matrix): string {
  return [
    ...noiseLines(matrix),
    ...matrix.rows.flatMap(rowLines),
    '',
    ...survivorLines(matrix.rows),
    '',
    ...guardLines(matrix.rows),
    '',
  ].join('\n');
}

function noiseLines({ noise }: Matrix): string[] {
  return noise.flatMap(({ days, keys, caught }) => {
    const where = `the sources as they are, on ${days} days${keys ? ' with keys' : ''}`;
    if (caught.length === 0) return [`${where}: nothing is broken`];
    return [`${where}, break what is not counted below:`, ...caught.map(caughtLine)];
  });
}

function rowLines({ canary, breaks, days, tried, changed, shown, seed, caught, thrown }: Row): string[] {
  const found = seed === null ? `not found in ${tried} ${days} days` : `found on day ${seed} of ${tried} ${days} ones`;
  const said = thrown === '' ? [] : [`    thrown: ${thrown}`];
  const differs = `    ${changed} days are other than without it, ${shown} of them to be seen from outside`;
  return ['', `${canary} [${breaks.join(', ')}]: ${found}`, differs, ...caught.map(caughtLine), ...said];
}

function caughtLine({ invariant, days, seed }: Caught): string {
  return `    ${invariant}: ${days} ${days === 1 ? 'day' : 'days'}, first ${seed}`;
}

function survivorLines(rows: readonly Row[]): string[] {
  const survivors = rows.filter(({ seed }) => seed === null);
  return [
    `${rows.length - survivors.length} of ${rows.length} canaries are found; not found:`,
    ...survivors.map(
      (row) => `    ${row.canary} [${row.breaks.join(', ')}], ${row.changed} days other, ${row.shown} outward`,
    ),
  ];
}

/** For each invariant the canaries that nothing else finds: take the invariant away and they survive. */
function guardLines(rows: readonly Row[]): string[] {
  const names = new Set([
    ...INVARIANT_NAMES,
    ...rows.flatMap(({ caught }) => caught.map(({ invariant }) => invariant)),
  ]);
  const lines: string[] = [];
  for (const name of [...names].filter((one) => one !== THROWS)) {
    const catches = rows.filter(({ caught }) => caught.some(({ invariant }) => invariant === name));
    const alone = catches.filter(({ caught }) => caught.every(({ invariant }) => invariant === name));
    const verdict = alone.length === 0 ? 'none of them by it alone' : `by it alone ${alone.length}:`;
    lines.push(`${name}: catches ${catches.length}, ${verdict}`, ...alone.map(({ canary }) => `    ${canary}`));
  }
  return lines;
}
