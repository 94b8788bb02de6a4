// Every requirement of the devices is exercised by a shipped scenario.
import { expect, test } from 'vitest';
import { read, SHIPPED, WORDS } from './shipped.js';

test('every requirement is covered by a scenario', () => {
  const covered = new Set(SHIPPED.flatMap(({ name, text }) => read(text, name).covers));
  expect(WORDS.requirements.filter((id) => !covered.has(id))).toEqual([]);
});

test('every scenario says what it covers, and opens with a comment that teaches', () => {
  for (const { name, text } of SHIPPED) {
    expect({ name, covers: read(text, name).covers.length > 0 }).toEqual({ name, covers: true });
    expect(text).toMatch(/^# .+\n/);
  }
});
