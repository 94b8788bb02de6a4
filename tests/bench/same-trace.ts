// Two traces held to be the same, down to the first event in which they are not.
import { expect } from 'vitest';
import { compareTraces, differenceText } from '../../src/trace/compare.js';
import type { TraceEvent } from '../../src/trace/kinds.js';

export function expectSame(found: readonly TraceEvent[], expected: readonly TraceEvent[]): void {
  const difference = compareTraces(found, expected);
  expect(difference && differenceText(difference, 'found', 'expected', 0)).toBeNull();
}
