// Guards TAL-4: no frame is heard that its sender did not send, to this receiver, as this frame, before.
import type { TraceEvent } from '../../trace/kinds.js';
import type { Invariant } from './invariant.js';

export const heardWasSent: Invariant = {
  name: 'no frame is heard that was not sent',
  guards: ['TAL-4'],
  watch: (facts) => ({
    on: {
      'air.heard': (event) => {
        const sent = facts.events[event.cause - 1];
        const isIt =
          sent !== undefined &&
          frameOf(sent) === event.frame &&
          sent.by === event.from &&
          'to' in sent &&
          sent.to === event.by;
        if (isIt) return undefined;
        return `${event.by} heard ${event.frame} from ${event.from}, which did not send it`;
      },
    },
  }),
};

/** Name of the frame that an event sends, '' where it sends none. */
function frameOf(event: TraceEvent): string {
  switch (event.kind) {
    case 'air.tally':
      return 'tally';
    case 'air.report':
      return 'report';
    case 'air.ack':
      return 'ack';
    case 'air.pairing':
      return event.frame;
    default:
      return '';
  }
}
