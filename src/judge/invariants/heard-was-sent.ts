// Guards TAL-4: no frame is heard that its sender did not send, to this receiver, as this frame, before.
import type { Invariant } from './invariant.js';
import type { SentEvent } from './sent-frames.js';

export const heardWasSent: Invariant = {
  name: 'no frame is heard that was not sent',
  guards: ['TAL-4'],
  watch: (facts) => ({
    on: {
      'air.heard': (event) => {
        const sent = facts.sent.find(event.cause);
        const isIt = sent?.by === event.from && sent.to === event.by && frameOf(sent) === event.frame;
        if (isIt) return undefined;
        return `${event.by} heard ${event.frame} from ${event.from}, which did not send it`;
      },
    },
  }),
};

/** Name of the frame that an event sends. */
function frameOf(event: SentEvent): string {
  switch (event.kind) {
    case 'air.tally':
      return 'tally';
    case 'air.report':
      return 'report';
    case 'air.ack':
      return 'ack';
    case 'air.pairing':
      return event.frame;
  }
}
