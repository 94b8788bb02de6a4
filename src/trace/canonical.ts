// The canonical text of an event: one line of JSON with sorted keys, no spaces, safe integers only. Two traces are the
// same where their texts are the same, byte for byte.
import type { TraceEvent } from './kinds.js';
import { LineWriter } from './line-writer.js';

const writer = new LineWriter(1);
const decoder = new TextDecoder();

/** The line of an event, without a line feed. Throws on a field that is missing or no safe integer. */
export function canonicalLine(event: TraceEvent): string {
  return lineOf(event, 'whole');
}

/** The line that model and firmware must agree on: without n, cause and bytes, and '' for inner. and flash. events. */
export function outwardLine(event: TraceEvent): string {
  return lineOf(event, 'outward');
}

function lineOf(event: TraceEvent, which: 'whole' | 'outward'): string {
  // Whatever an error has left in the writer goes first.
  writer.take();
  writer.write(event);
  return decoder.decode(writer.take()[which]).trimEnd();
}
