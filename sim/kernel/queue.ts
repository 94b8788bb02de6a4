// A queue ordered by (due time, creation): of two entries due at the same time the one made first comes first.
// Entries are plain data, so that a queue can be copied as it stands.

/** More pending entries than any world here can need: reaching it means that something feeds on itself. */
const MAX_PENDING = 200_000;

export interface Entry<T> {
  readonly dueMs: number;
  /** Rises with every entry made; ties are broken by it. */
  readonly order: number;
  /** null once the entry was taken or cancelled. */
  item: T | null;
}

export interface QueueState<T> {
  heap: Entry<T>[];
  nextOrder: number;
}

export class DueQueue<T> {
  constructor(private readonly state: QueueState<T>) {}

  /** Adds an item; dueMs is an integer. The entry returned is the handle for cancel(). */
  push(dueMs: number, item: T): Entry<T> {
    const { heap } = this.state;
    if (!Number.isSafeInteger(dueMs)) throw new Error(`due time ${dueMs} is no integer number of ms`);
    if (heap.length >= MAX_PENDING)
      throw new Error(`more than ${MAX_PENDING} entries are pending: something feeds on itself`);
    const entry: Entry<T> = { dueMs, order: this.state.nextOrder++, item };
    heap.push(entry);
    this.rise(heap.length - 1);
    return entry;
  }

  /** Takes an entry out; one that was taken or cancelled before stays so. */
  cancel(entry: Entry<T>): void {
    entry.item = null;
  }

  /** Due time of the first entry, Infinity where there is none. */
  nextMs(): number {
    const { heap } = this.state;
    while (heap.length > 0 && heap[0]!.item === null) this.dropFirst();
    return heap.length > 0 ? heap[0]!.dueMs : Infinity;
  }

  /** Takes the first entry; call it only where nextMs() is finite. */
  take(): T {
    this.nextMs();
    const first = this.state.heap[0];
    if (first === undefined || first.item === null) throw new Error('nothing to take from an empty queue');
    const { item } = first;
    first.item = null;
    this.dropFirst();
    return item;
  }

  /** Due times of the pending entries, in order: part of a digest of the world. */
  pendingMs(): number[] {
    return this.state.heap
      .filter((entry) => entry.item !== null)
      .sort(before)
      .map((entry) => entry.dueMs);
  }

  private dropFirst(): void {
    const { heap } = this.state;
    const last = heap.pop();
    if (last === undefined || heap.length === 0) return;
    heap[0] = last;
    this.sink();
  }

  private rise(from: number): void {
    const { heap } = this.state;
    const entry = heap[from]!;
    let at = from;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (before(heap[above]!, entry) <= 0) break;
      heap[at] = heap[above]!;
      at = above;
    }
    heap[at] = entry;
  }

  private sink(): void {
    const { heap } = this.state;
    const entry = heap[0]!;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= heap.length) break;
      if (below + 1 < heap.length && before(heap[below + 1]!, heap[below]!) < 0) below++;
      if (before(entry, heap[below]!) <= 0) break;
      heap[at] = heap[below]!;
      at = below;
    }
    heap[at] = entry;
  }
}

function before(a: Entry<unknown>, b: Entry<unknown>): number {
  return a.dueMs - b.dueMs || a.order - b.order;
}
