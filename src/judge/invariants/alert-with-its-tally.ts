// Guards WEA-2: an alert comes with the accepted tally that takes the shift to or past its level, at the same millisecond.
import { clockText } from '../../trace/clock.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { type LevelFacts, levelFacts } from './worker-facts.js';

interface Alarm {
  readonly level: LevelFacts;
  /** When the newest shift passed the level, -1 before that. */
  dueMs: number;
  raised: boolean;
}

export const alertWithItsTally: Invariant = {
  name: 'every alert comes with the tally that takes the shift past its level',
  guards: ['WEA-2'],
  watch: (facts) => {
    const alarms = new Map<string, readonly Alarm[]>();
    const none: readonly Alarm[] = [];
    return {
      on: {
        'hand.worker': (event) => {
          alarms.set(
            event.by,
            levelFacts(event.levels).map((level) => ({ level, dueMs: -1, raised: false })),
          );
          return undefined;
        },
        'inner.ledger': (event) => onLedger(facts, alarms.get(event.by) ?? none, event),
        'inner.shift': (event) => {
          if (event.what !== 'opened') return undefined;
          const missing = overdue(facts, alarms.get(event.by) ?? none, event);
          for (const alarm of alarms.get(event.by) ?? none) reset(alarm);
          return missing;
        },
        'shown.alert': (event) => onAlert(facts, alarms.get(event.by) ?? none, event),
      },
      waitingFor: () =>
        [...alarms].flatMap(([worker, own]) => own.filter(isMissing).map((alarm) => missingText(facts, worker, alarm))),
    };
  },
};

function onLedger(facts: Facts, alarms: readonly Alarm[], event: EventOf<'inner.ledger'>): string | undefined {
  const late = overdue(facts, alarms, event);
  if (event.shift !== facts.worker(event.by).shift) return late;
  for (const alarm of alarms) {
    if (alarm.dueMs < 0 && event.total >= alarm.level.leastDose) alarm.dueMs = event.at;
  }
  return late;
}

function onAlert(facts: Facts, alarms: readonly Alarm[], event: EventOf<'shown.alert'>): string | undefined {
  if (event.again > 0) return undefined;
  const alarm = alarms.find((one) => one.level.level === event.level);
  // One that is not due at all comes too early, which another invariant says.
  if (alarm === undefined || alarm.dueMs < 0) return undefined;
  if (alarm.raised) return `${event.by} is alerted of ${event.level} a second time in one shift, not as a repetition`;
  alarm.raised = true;
  if (event.at === alarm.dueMs) return undefined;
  return `${missingText(facts, event.by, alarm)}, came only now`;
}

/** The first alert that is due since an earlier time; it is told of once. */
function overdue(facts: Facts, alarms: readonly Alarm[], event: { by: string; at: number }): string | undefined {
  for (const alarm of alarms) {
    if (!isMissing(alarm) || alarm.dueMs === event.at) continue;
    alarm.raised = true;
    return `${missingText(facts, event.by, alarm)}, did not come with its tally`;
  }
  return undefined;
}

function isMissing(alarm: Alarm): boolean {
  return alarm.dueMs >= 0 && !alarm.raised;
}

function missingText(facts: Facts, worker: string, alarm: Alarm): string {
  return `the ${alarm.level.level} alert of ${worker}, due at ${clockText(facts.fromMs, alarm.dueMs)}`;
}

function reset(alarm: Alarm): void {
  alarm.dueMs = -1;
  alarm.raised = false;
}
