// Guards PAI-1 and PAI-2: a session opens, and a key is kept, only on the accept of the other side, not on one that somebody made
// up: not unless the digits were the same on both, which somebody in the middle brings about once in 10 000 times.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';

export const openedByItsWearable: Invariant = {
  name: 'a session opens on the accept of its own wearable',
  guards: ['PAI-1', 'PAI-2'],
  watch: (facts) => {
    /** The digits shown last by each device. */
    const digits = new Map<string, number>();
    const wrong = (by: string, other: string, cause: number, what: string): string | undefined => {
      const heard = facts.heard?.n === cause ? facts.heard : undefined;
      const isMade = heard?.from === 'bench' && digits.get(by) === digits.get(other);
      if (heard !== undefined && (isMade || isAccept(facts, heard, other))) return undefined;
      return `${by} ${what}, without an accept of ${other}`;
    };
    return {
      on: {
        'shown.display': (event) => {
          if (event.screen === 'digits') digits.set(event.by, event.value);
          return undefined;
        },
        'inner.session': (event) =>
          event.what === 'opened'
            ? wrong(event.by, event.with, event.cause, `opens session ${event.session}`)
            : undefined,
        'inner.paired': (event) =>
          facts.device(event.by).starting
            ? undefined
            : wrong(event.by, event.counter, event.cause, `keeps a key for session ${event.session}`),
      },
    };
  },
};

function isAccept(facts: Facts, heard: EventOf<'air.heard'>, from: string): boolean {
  const sent = facts.sent.heard(heard);
  return sent?.kind === 'air.pairing' && sent.frame === 'accept' && sent.by === from;
}
