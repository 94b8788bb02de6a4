// Guards CEL-1 and KEP-1: a device without power does nothing at all; one that sleeps on a poor cell sends nothing, and starts no
// operation of its flash. What it does as it wakes it shows at the same moment.
import type { TraceEvent } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';

type Act = Pick<TraceEvent, 'by' | 'at' | 'kind'>;

export const silentWithoutPower: Invariant = {
  name: 'a device without power does nothing, one asleep keeps and sends nothing',
  guards: ['CEL-1', 'KEP-1'],
  watch: (facts) => {
    /** What a sleeping device did, unless it wakes at that moment. */
    const suspects = new Map<string, Act>();
    const done = (event: Act) => doneText(facts, event);
    const asleep = (event: Act): string | undefined => {
      const wrong = done(event);
      if (facts.device(event.by).asleep) suspects.set(event.by, suspects.get(event.by) ?? event);
      return wrong;
    };
    return {
      onAny: (event) => {
        if (suspects.size === 0) return undefined;
        for (const [name, act] of suspects) {
          if (act.at === event.at) continue;
          suspects.delete(name);
          return suspectText(act);
        }
        return undefined;
      },
      on: {
        'shown.display': (event) => {
          const device = facts.device(event.by);
          if (device.on && event.screen !== 'asleep') suspects.delete(event.by);
          return event.screen === 'dark' ? undefined : done(event);
        },
        'shown.alert': done,
        'shown.mark': done,
        'shown.record': done,
        'air.tally': asleep,
        'air.report': asleep,
        'air.ack': asleep,
        'air.pairing': asleep,
        'air.heard': done,
        'flash.erase': asleep,
        'inner.kept': asleep,
        'inner.count': done,
        'inner.session': done,
        'inner.ledger': done,
        'inner.shift': done,
      },
      wrongAtEnd: () => [...suspects.values()].map(suspectText),
    };
  },
};

function doneText(facts: Facts, { by, kind }: Act): string | undefined {
  return facts.device(by).on ? undefined : `${by} has no power: ${kind}`;
}

function suspectText({ by, kind }: Act): string {
  return `${by} is asleep: ${kind}`;
}
