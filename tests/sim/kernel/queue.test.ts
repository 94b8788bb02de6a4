import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DueQueue, type Entry } from '../../../sim/kernel/queue.js';

function newQueue<T>(): DueQueue<T> {
  return new DueQueue<T>({ heap: [], nextOrder: 0 });
}

/** What one does to a queue; which picks an entry among all made so far. */
const STEP = fc.oneof(
  { weight: 4, arbitrary: fc.record({ do: fc.constant('push' as const), dueMs: fc.nat(20) }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('take' as const) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('cancel' as const), which: fc.nat(100) }) },
);

/** The slow and plain way: a list that is sorted by due time before each take; sort() keeps the order of equals. */
class PlainQueue {
  pending: { readonly dueMs: number; readonly item: number }[] = [];

  take(): number | undefined {
    this.pending.sort((a, b) => a.dueMs - b.dueMs);
    return this.pending.shift()?.item;
  }
}

describe('DueQueue', () => {
  it('gives entries by due time, those due together in the order in which they were made', () => {
    fc.assert(
      fc.property(fc.array(STEP, { maxLength: 120 }), (steps) => {
        const queue = newQueue<number>();
        const plain = new PlainQueue();
        const made: Entry<number>[] = [];
        for (const step of steps) {
          if (step.do === 'push') {
            plain.pending.push({ dueMs: step.dueMs, item: made.length });
            made.push(queue.push(step.dueMs, made.length));
          } else if (step.do === 'cancel' && made.length > 0) {
            const which = step.which % made.length;
            queue.cancel(made[which]!);
            plain.pending = plain.pending.filter(({ item }) => item !== which);
          } else if (step.do === 'take' && plain.pending.length > 0) {
            expect(queue.take()).toBe(plain.take());
          }
          const due = plain.pending.map(({ dueMs }) => dueMs).sort((a, b) => a - b);
          expect(queue.nextMs()).toBe(due[0] ?? Infinity);
          expect(queue.pendingMs()).toEqual(due);
        }
      }),
    );
  });

  it('can be copied as it stands, with the handles to its entries', () => {
    const state = { heap: [], nextOrder: 0 };
    const queue = new DueQueue<string>(state);
    const handles = ['a', 'b', 'c'].map((item, index) => queue.push(10 - index, item));
    const copy = structuredClone({ state, handles });
    const copied = new DueQueue<string>(copy.state);
    copied.cancel(copy.handles[2]!);
    copied.push(9, 'd');
    expect([copied.take(), copied.take(), copied.take()]).toEqual(['b', 'd', 'a']);
    expect([queue.take(), queue.take(), queue.take()]).toEqual(['c', 'b', 'a']);
  });

  it('refuses a due time that is no whole number, and a take from an empty queue', () => {
    const queue = newQueue<string>();
    expect(() => queue.push(1.5, 'a')).toThrow('1.5');
    expect(() => queue.push(Infinity, 'a')).toThrow('Infinity');
    expect(() => queue.push(Number.NaN, 'a')).toThrow('NaN');
    expect(() => queue.take()).toThrow('empty');
    queue.cancel(queue.push(1, 'a'));
    expect(() => queue.take()).toThrow('empty');
  });

  it('forgets an entry that is cancelled after it was taken, or twice', () => {
    const queue = newQueue<string>();
    const entry = queue.push(1, 'a');
    queue.push(2, 'b');
    expect(queue.take()).toBe('a');
    queue.cancel(entry);
    queue.cancel(entry);
    expect(queue.take()).toBe('b');
  });

  it('is bounded', () => {
    const queue = newQueue<number>();
    const fill = () => {
      for (let made = 0; made <= 200_000; made++) queue.push(made, made);
    };
    expect(fill).toThrow('more than 200000 entries are pending');
  });
});
