// Moments of a day, as expectations and notes name them: a time, the end of the day, or the label of a step, which is
// when the first event of the first such step begins.
import { CLOCK_META, type ClockTime, looksLikeClock, noClock, parseClock, sinceStart } from './fields/clock.js';
import { type Field, field, isRefusal, type Reading, type Refusal, readScalar } from './fields/field.js';
import type { Problems } from './problems.js';
import { type Frame, reportOutside } from './scope.js';
import type { LabelledEvent } from './steps.js';
import type { Node } from './yaml/node.js';

export type Moment = { readonly clock: ClockTime } | { readonly label: string } | 'end';

const MOMENT = `${CLOCK_META.description}, or "end", or the label of a step`;
const META = { type: 'string', description: MOMENT } as const;

/** Reads a moment; null where the node is none. */
export function readMoment(node: Node, reading: Reading): Moment | null {
  // No label is a number unless it stands in quotes; who writes one without means a time.
  const isNumber = node.kind === 'scalar' && node.type === 'number';
  const read = isNumber ? noClock(node.text, MOMENT) : readScalar<Moment>(node, 'text', META, momentOf);
  if (isRefusal(read)) reading.refuse(node, read);
  else if (read !== 'end' && 'label' in read) reading.refer('label', read.label, node);
  return isRefusal(read) ? null : read;
}

function momentOf(text: string): Moment | Refusal {
  const clock = parseClock(text);
  if (clock !== null) return { clock };
  if (text === 'end') return 'end';
  return looksLikeClock(text) ? noClock(text, MOMENT) : { label: text };
}

export const moment: Field<Moment> = field(META, readMoment);

/** A day with its moments. */
export class Timeline {
  private readonly starts = new Map<string, number>();

  constructor(
    readonly frame: Frame,
    events: readonly LabelledEvent[],
  ) {
    for (const { event, label } of events) {
      if (label !== null && !this.starts.has(label)) this.starts.set(label, event.atMs);
    }
  }

  /** ms since the start, 0 to the length of the day; null where it lies outside, or no step has the label any more. */
  msOf(when: Moment): number | null {
    if (when === 'end') return this.frame.untilMs;
    if ('label' in when) return this.starts.get(when.label) ?? null;
    const ms = sinceStart(when.clock, this.frame.fromMs);
    return ms >= 0 && ms <= this.frame.untilMs ? ms : null;
  }
}

/** The moment in ms; reports one that lies outside the day, or at a step that a what-if drops, and gives null. */
export function msOf(
  found: { readonly value: Moment; readonly node: Node },
  timeline: Timeline,
  problems: Problems,
): number | null {
  const { value, node } = found;
  const ms = timeline.msOf(value);
  if (ms !== null) return ms;
  if (value === 'end' || 'clock' in value) reportOutside(problems, node, timeline.frame);
  else if (problems.size === 0)
    problems.at(node, 'unexpected', 'no step of this label is left', 'the what-if drops it');
  return null;
}
