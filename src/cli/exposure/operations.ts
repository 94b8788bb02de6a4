// Reads all operations of a day, one an argument, and tells of every argument that cannot be read.
import { type PlannedOperation, readOperation } from './operation.js';
import { DAY_MS } from './time.js';
import type { Misread } from './words.js';

/** What is wrong with an argument. */
export interface WrongArgument extends Misread {
  /** Counted from 1. */
  readonly argument: number;
  readonly text: string;
}

export type Operations =
  | { readonly operations: readonly PlannedOperation[] }
  | { readonly wrong: readonly WrongArgument[] };

/** Reads the operations; together they last at most 24 h, or the argument that passes that is wrong. */
export function readOperations(texts: readonly string[]): Operations {
  const operations: PlannedOperation[] = [];
  const wrong: WrongArgument[] = [];
  let totalMs = 0;
  for (const [index, text] of texts.entries()) {
    const read = readOperation(text);
    if ('expected' in read) {
      wrong.push({ argument: index + 1, text, ...read });
      continue;
    }
    operations.push(read);
    const fitted = totalMs <= DAY_MS;
    totalMs += read.triggerMs;
    if (fitted && totalMs > DAY_MS) {
      const expected = 'a shorter time: up to here the operations last more than the 24 h of a day';
      wrong.push({ argument: index + 1, text, at: read.timeAt, expected });
    }
  }
  return wrong.length === 0 ? { operations } : { wrong };
}
