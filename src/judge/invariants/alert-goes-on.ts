// Guards WEA-2: an alert that nobody has acknowledged by a tap is repeated, at least every half a minute of the wearable's own
// time, as long as the wearable is awake.
import { clockText } from '../../trace/clock.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';

/** Half a minute, and one second to spare. */
const AGAIN_MS = 31_000;

export const alertGoesOn: Invariant = {
  name: 'an alert is repeated until it is acknowledged',
  guards: ['WEA-2'],
  watch: (facts) => {
    /** By worker: when an alert was last called that is not acknowledged. */
    const calledMs = new Map<string, number>();
    const judge = ({ by, at }: { by: string; at: number }): string | undefined => {
      const sinceMs = calledMs.get(by);
      if (sinceMs === undefined || !isSilent(facts, by, sinceMs, at)) return undefined;
      calledMs.delete(by);
      return `${silentText(facts, by, sinceMs)}, was not repeated in time`;
    };
    const end = ({ by, at }: { by: string; at: number }): string | undefined => {
      const wrong = judge({ by, at });
      calledMs.delete(by);
      return wrong;
    };
    return {
      on: {
        'shown.alert': (event) => {
          const wrong = judge(event);
          const isFirst = event.again === 0 || facts.device(event.by).startedMs === event.at;
          if (isFirst || calledMs.has(event.by)) calledMs.set(event.by, event.at);
          return wrong;
        },
        'shown.display': judge,
        'inner.ledger': judge,
        'input.tap': (event) => {
          const { awake, screen } = facts.device(event.by);
          return awake && screen !== 'digits' ? end(event) : judge(event);
        },
        'inner.shift': (event) => (event.what === 'opened' ? end(event) : judge(event)),
        'fault.cut': (event) => end(event),
      },
      waitingFor: (endMs) =>
        [...calledMs]
          .filter(([worker, sinceMs]) => isSilent(facts, worker, sinceMs, endMs))
          .map(([worker, sinceMs]) => `${silentText(facts, worker, sinceMs)}, to be repeated`),
    };
  },
};

function isSilent(facts: Facts, worker: string, sinceMs: number, nowMs: number): boolean {
  const { awake, awakeSinceMs, clock } = facts.device(worker);
  return awake && clock.least(Math.max(sinceMs, awakeSinceMs), nowMs) > AGAIN_MS;
}

function silentText(facts: Facts, worker: string, sinceMs: number): string {
  return `the alert of ${worker}, called at ${clockText(facts.fromMs, sinceMs)} and acknowledged by nobody`;
}
