// Guards TAL-4: no frame is taken that its sender did not send, to this receiver, as this frame, before. One whose bits were
// changed on the way, and one that somebody made up, is refused: the refusal is the very next thing that happens. A genuine
// frame that somebody sends again, word for word and to whom it was sent, is one that comes late or twice. In a pairing nobody
// has a key yet: somebody in the middle of it may be answered, and the digits speak (PAI-2); and a refusal does not say which
// of the two refuses, so that one may be taken by the one that said it.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { frameOf } from './sent-frames.js';

export const heardWasSent: Invariant = {
  name: 'no frame is taken that was not sent',
  guards: ['TAL-4'],
  watch: (facts) => {
    /** What was just heard and must be refused. */
    let due: EventOf<'air.heard'> | undefined;
    const taken = () => {
      if (due === undefined) return [];
      const { by, frame } = due;
      due = undefined;
      return [`${by} has taken the ${frame} frame that came with event ${lastN}`];
    };
    let lastN = 0;
    return {
      onAny: (event) => {
        if (due === undefined) return undefined;
        if (isRefusal(event, due)) {
          due = undefined;
          return undefined;
        }
        return taken()[0];
      },
      on: {
        'air.heard': (event) => {
          lastN = event.n;
          const wrong = wrongName(facts, event);
          if (wrong !== undefined || !mustBeRefused(facts, event)) return wrong;
          due = event;
          return undefined;
        },
      },
      wrongAtEnd: taken,
    };
  },
};

function isRefusal(event: TraceEvent, heard: EventOf<'air.heard'>): boolean {
  return event.kind === 'air.refused' && event.by === heard.by && event.cause === heard.n;
}

/** The trace itself must not say that somebody sent what somebody did not. */
function wrongName(facts: Facts, { by, from, frame, cause }: EventOf<'air.heard'>): string | undefined {
  const sent = facts.sent.find(cause);
  const name = `${by} heard ${frame} from ${from}, which did not send it`;
  if (sent === undefined || sent.to !== by) return name;
  if (sent.kind === 'air.injected') return from === 'bench' && frame === 'injected' ? undefined : name;
  return sent.by === from && (frame === 'damaged' || frameOf(sent) === frame) ? undefined : name;
}

function mustBeRefused(facts: Facts, event: EventOf<'air.heard'>): boolean {
  const sent = facts.sent.find(event.cause);
  const isPairing = sent?.kind === 'air.injected' && (sent.how === 'middle' || facts.sent.isRefusal(sent.bytes));
  // One that sleeps hears nothing (CEL-1).
  return !isPairing && facts.device(event.by).awake && facts.sent.heard(event) === undefined;
}
