// The events of a trace that a happening means.
import type { Happening } from '../../scenario/expectation.js';
import type { Kind, TraceEvent } from '../../trace/kinds.js';
import { KINDS } from '../../trace/kinds.js';
import type { TraceIndex } from './trace-index.js';

export interface ReadHappening {
  readonly what: string;
  readonly devices: readonly string[];
  readonly events: readonly TraceEvent[];
}

/**
 * An alert happens when it is raised; the repetitions of one that nobody has acknowledged are no further happenings, here
 * nor under "never". A message happens when it is sent. Throws on a kind of event that no trace has.
 */
export function readHappening(index: TraceIndex, happening: Happening): ReadHappening {
  switch (happening.of) {
    case 'alert': {
      const { level, worker } = happening;
      const events = index
        .of('shown.alert')
        .filter((event) => event.by === worker && event.again === 0 && (level === null || event.level === level));
      return { what: `${level === null ? 'any' : `the ${level}`} alert on ${worker}`, devices: [worker], events };
    }
    case 'message': {
      const { frame, from, to } = happening;
      const events = sendings(index, frame).filter(
        (event) => (from === null || event.by === from) && (to === null || event.to === to),
      );
      const ends = `${from === null ? '' : ` from ${from}`}${to === null ? '' : ` to ${to}`}`;
      return { what: `the message ${frame}${ends}`, devices: [from, to].filter((name) => name !== null), events };
    }
    case 'event': {
      const { kind, by } = happening;
      if (!(kind in KINDS)) throw new Error(`no trace has events of the kind ${kind}`);
      const events = index.of(kind as Kind).filter((event) => by === null || concerns(event, by));
      return { what: `${kind}${by === null ? '' : ` by ${by}`}`, devices: by === null ? [] : [by], events };
    }
  }
}

function sendings(index: TraceIndex, frame: string) {
  if (frame === 'tally' || frame === 'report' || frame === 'ack') return index.of(`air.${frame}`);
  return index.of('air.pairing').filter((event) => event.frame === frame);
}

/** Whose event it is; those who leave or return together are all named in `who`. */
function concerns(event: TraceEvent, name: string): boolean {
  return event.by === name || ('who' in event && event.who.includes(name));
}
