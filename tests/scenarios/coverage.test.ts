// Every requirement of the devices that the bench has by now is exercised by a shipped scenario; the others are named here with
// what they wait for.
import { expect, test } from 'vitest';
import { read, SHIPPED, WORDS } from './shipped.js';

/** Bytes, keys, flash, cell and the record of a finished day are still to come. */
const STILL_TO_COME = [
  ...['KEP-1', 'KEP-2', 'KEP-4', 'KEP-5', 'CLK-1', 'CEL-1'],
  ...['PAI-2', 'TAL-2', 'TAL-4', 'TAL-7', 'WEA-5'],
];

const covered = new Set(SHIPPED.flatMap(({ name, text }) => read(text, name).covers));

test('every requirement is covered by a scenario, or is still to come', () => {
  expect(WORDS.requirements.filter((id) => !covered.has(id)).sort()).toEqual([...STILL_TO_COME].sort());
});

test('every scenario says what it covers, and opens with a comment that teaches', () => {
  for (const { name, text } of SHIPPED) {
    expect({ name, covers: read(text, name).covers.length > 0 }).toEqual({ name, covers: true });
    expect(text).toMatch(/^# .+\n/);
  }
});
