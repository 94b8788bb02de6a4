// Guards TAL-4: a frame that is refused changes nothing. Of a device that refuses one nothing else is seen of it; only what is
// said in the pairing that a broken commitment ends (PAI-2), and the mark of a shift that an implausible dose leaves
// incomplete (TAL-7).
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Invariant } from './invariant.js';

export const refusedChangesNothing: Invariant = {
  name: 'a refused frame changes nothing',
  guards: ['TAL-4', 'TAL-7', 'PAI-2'],
  watch: () => {
    /** The frame heard last, what came of it before it was refused, and its refusal. */
    let heard: EventOf<'air.heard'> | undefined;
    let first: TraceEvent | undefined;
    let refusal: EventOf<'air.refused'> | undefined;
    return {
      onAny: (event) => {
        if (heard === undefined || event.cause !== heard.n || event.by !== heard.by) return undefined;
        if (event.kind !== 'air.refused') {
          first ??= event;
          return refusal === undefined ? undefined : wrongText(refusal, event);
        }
        refusal = event;
        return first === undefined ? undefined : wrongText(event, first);
      },
      on: {
        'air.heard': (event) => {
          heard = event;
          first = undefined;
          refusal = undefined;
          return undefined;
        },
      },
    };
  },
};

function wrongText({ by, frame, from, reason }: EventOf<'air.refused'>, seen: TraceEvent): string | undefined {
  const isPairing = seen.kind === 'inner.state' || seen.kind === 'shown.display';
  if (reason === 'commitment' && isPairing) return undefined;
  const isMark = seen.kind === 'inner.incomplete' || seen.kind === 'shown.display' || seen.kind === 'flash.erase';
  if (reason === 'implausible' && isMark) return undefined;
  return `${by} refused ${frame} from ${from} as ${reason}, and ${seen.kind} came of it`;
}
