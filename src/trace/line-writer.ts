// Writes events as canonical text, byte by byte into two buffers at once: the whole text, and the outward text, which leaves
// out inner. and flash. events, the numbering (n, cause) and the bytes of frames. Hashing a day is mostly writing its text,
// so this is plain byte code.
import { KINDS, type Kind, type LevelField, type TraceEvent } from './kinds.js';

const QUOTE = 34;
const MINUS = 45;
const ZERO = 48;
const BRACE = 125;
const LINE_FEED = 10;
/** Numbers are written in two halves of at most nine digits, each of which fits 32 bits. */
const NINE_DIGITS = 1_000_000_000;

/** A field: the bytes before its value (comma, key, colon; the kind has its value there too), and how the value is written. */
interface Part {
  readonly lead: Uint8Array;
  readonly key: string;
  readonly type: string;
  /** Whether the outward text has it. */
  readonly outward: boolean;
}

/** What model and firmware each have their own of. */
const OWN_FIELDS: readonly string[] = ['bytes', 'cause', 'n'];

interface Plan {
  readonly parts: readonly Part[];
  readonly inner: boolean;
}

const encoder = new TextEncoder();
const TRUE = encoder.encode('true');
const FALSE = encoder.encode('false');
const PLANS: Readonly<Record<string, Plan>> = Object.fromEntries(
  (Object.keys(KINDS) as Kind[]).map((kind) => [kind, planOf(kind)]),
);

/** Bytes of an event's line that the buffers keep free: names and lists are bounded by the scenario's reader. */
const MAX_LINE_BYTES = 65_536;

export class LineWriter {
  private readonly whole: Uint8Array;
  private readonly outward: Uint8Array;
  private wholeEnd = 0;
  private outwardEnd = 0;

  /** bytes: what the buffers hold before they are full; a line may take MAX_LINE_BYTES beyond that. */
  constructor(private readonly bytes: number) {
    this.whole = new Uint8Array(bytes + MAX_LINE_BYTES);
    this.outward = new Uint8Array(bytes + MAX_LINE_BYTES);
  }

  /** True where the texts are to be taken before the next line. */
  get full(): boolean {
    return this.wholeEnd >= this.bytes;
  }

  /** The texts written since the last taking; valid until the next write. */
  take(): { readonly whole: Uint8Array; readonly outward: Uint8Array } {
    const taken = { whole: this.whole.subarray(0, this.wholeEnd), outward: this.outward.subarray(0, this.outwardEnd) };
    this.wholeEnd = 0;
    this.outwardEnd = 0;
    return taken;
  }

  /** Writes one line, line feed included. Throws on a field that is missing or no safe integer. */
  write(event: TraceEvent): void {
    const plan = PLANS[event.kind];
    if (plan === undefined) throw new Error(`unknown kind of event: ${event.kind}`);
    const fields = event as unknown as Record<string, unknown>;
    let from = this.wholeEnd;
    for (let index = 0; index < plan.parts.length; index++) {
      const { lead, key, type, outward } = plan.parts[index]!;
      if (!outward) this.copyOutward(from);
      this.bytesOf(lead);
      this.value(fields[key], type);
      if (!outward) from = this.wholeEnd;
    }
    this.whole[this.wholeEnd++] = BRACE;
    this.whole[this.wholeEnd++] = LINE_FEED;
    if (this.wholeEnd > this.whole.length)
      throw new Error(`an event at ${event.at} ms is longer than ${MAX_LINE_BYTES} bytes`);
    if (!plan.inner) this.copyOutward(from);
  }

  private value(value: unknown, type: string): void {
    if (type === 'none') return;
    if (type === 'number') this.integer(value as number);
    else if (type === 'text') this.bytesOf(quoted(value));
    else if (type === 'hex') this.hex(value as string);
    else if (value === undefined) throw new Error('a field of an event is missing');
    else if (type === 'flag' && typeof value === 'boolean') this.bytesOf(value ? TRUE : FALSE);
    else this.bytesOf(encoder.encode(listText(value, type)));
  }

  private hex(value: string): void {
    if (typeof value !== 'string') throw new Error(`a field of an event is no bytes: ${value}`);
    const { whole, wholeEnd } = this;
    whole[wholeEnd] = QUOTE;
    for (let index = 0; index < value.length; index++) whole[wholeEnd + 1 + index] = value.charCodeAt(index);
    whole[wholeEnd + 1 + value.length] = QUOTE;
    this.wholeEnd = wholeEnd + value.length + 2;
  }

  private integer(value: number): void {
    if (!Number.isSafeInteger(value)) throw new Error(`a trace holds safe integers only, not ${value}`);
    if (value < 0) this.whole[this.wholeEnd++] = MINUS;
    const size = Math.abs(value);
    if (size < NINE_DIGITS) {
      this.digits(size, digitsIn(size));
      return;
    }
    const high = Math.floor(size / NINE_DIGITS);
    this.digits(high, digitsIn(high));
    this.digits(size - high * NINE_DIGITS, 9);
  }

  private digits(value: number, count: number): void {
    const { whole, wholeEnd } = this;
    let rest = value;
    for (let at = wholeEnd + count - 1; at >= wholeEnd; at--) {
      const tenth = (rest / 10) | 0;
      whole[at] = ZERO + rest - tenth * 10;
      rest = tenth;
    }
    this.wholeEnd = wholeEnd + count;
  }

  private bytesOf(bytes: Uint8Array): void {
    const { whole, wholeEnd } = this;
    for (let index = 0; index < bytes.length; index++) whole[wholeEnd + index] = bytes[index]!;
    this.wholeEnd = wholeEnd + bytes.length;
  }

  private copyOutward(from: number): void {
    const { whole, wholeEnd, outward, outwardEnd } = this;
    outward.set(whole.subarray(from, wholeEnd), outwardEnd);
    this.outwardEnd = outwardEnd + wholeEnd - from;
  }
}

function planOf(kind: Kind): Plan {
  const types: Readonly<Record<string, string>> = {
    at: 'number',
    by: 'text',
    cause: 'number',
    kind: 'none',
    n: 'number',
    ...KINDS[kind],
  };
  const inner = kind.startsWith('inner.') || kind.startsWith('flash.');
  const parts = Object.keys(types)
    .sort()
    .map((key, index) => ({
      lead: encoder.encode(
        `${index === 0 ? '{' : ','}${JSON.stringify(key)}:${key === 'kind' ? JSON.stringify(kind) : ''}`,
      ),
      key,
      type: types[key]!,
      outward: inner || !OWN_FIELDS.includes(key),
    }));
  return { parts, inner };
}

function digitsIn(value: number): number {
  let count = 1;
  for (let limit = 10; value >= limit; limit *= 10) count += 1;
  return count;
}

function listText(value: unknown, type: string): string {
  if (type === 'texts' && Array.isArray(value) && value.every((text) => typeof text === 'string')) {
    return JSON.stringify(value);
  }
  if (type === 'levels' && Array.isArray(value)) return `[${value.map(levelText).join()}]`;
  throw new Error(`a field of an event is no ${type}: ${JSON.stringify(value)}`);
}

function levelText({ compare, level, points }: LevelField): string {
  if (!Number.isSafeInteger(points)) throw new Error(`a trace holds safe integers only, not ${points}`);
  return JSON.stringify({ compare, level, points });
}

/** Names recur in every event; a bounded memory of their JSON saves most of the work. */
const MAX_REMEMBERED = 4096;
const remembered = new Map<unknown, Uint8Array>();

function quoted(value: unknown): Uint8Array {
  const known = remembered.get(value);
  if (known !== undefined) return known;
  if (typeof value !== 'string') throw new Error(`a text of an event is missing: ${value}`);
  if (remembered.size >= MAX_REMEMBERED) remembered.clear();
  const made = encoder.encode(JSON.stringify(value));
  remembered.set(value, made);
  return made;
}
