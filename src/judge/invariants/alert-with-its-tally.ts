// Guards WEA-2 and WEA-5: an alert comes with the accepted tally that takes the shift to or past its level, at the same
// millisecond. Where power fails at that very moment it comes when the wearable starts again, and one that nobody has
// acknowledged by then goes on: in the repetition of the highest level that is passed. One that starts asleep calls soon after it
// has woken.
import { clockText } from '../../trace/clock.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { type LevelFacts, levelFacts } from './worker-facts.js';

interface Alarm {
  readonly level: LevelFacts;
  /** When it became due, or due again at a start, -1 before that. */
  dueMs: number;
  raised: boolean;
  acknowledged: boolean;
  /** It is due since a start: the repetition of a higher level will do. */
  again: boolean;
}

/** A wearable that wakes calls again within so much of its own time, half a minute and one second to spare. */
const CALLS_WITHIN_MS = 31_000;

export const alertWithItsTally: Invariant = {
  name: 'every alert comes with the tally that takes the shift past its level',
  guards: ['WEA-2', 'WEA-5'],
  watch: (facts) => {
    /** By worker, in rising order. */
    const alarms = new Map<string, readonly Alarm[]>();
    const none: readonly Alarm[] = [];
    const of = (worker: string) => alarms.get(worker) ?? none;
    return {
      on: {
        'hand.worker': (event) => {
          const levels = [...levelFacts(event.levels)].sort((a, b) => a.leastDose - b.leastDose);
          alarms.set(event.by, levels.map(newAlarm));
          return undefined;
        },
        'inner.ledger': (event) => (facts.device(event.by).starting ? undefined : onLedger(facts, of(event.by), event)),
        'inner.shift': (event) => {
          if (event.what !== 'opened') return undefined;
          const missing = overdue(facts, of(event.by), event);
          for (const alarm of of(event.by)) reset(alarm);
          return missing;
        },
        'input.tap': ({ by }) => {
          const { awake, screen } = facts.device(by);
          if (awake && screen !== 'digits') for (const alarm of of(by)) alarm.acknowledged ||= alarm.raised;
          return undefined;
        },
        'fault.cut': (event) => overdue(facts, of(event.by), event),
        'flash.recovered': (event) => {
          if (facts.device(event.by).starting) for (const alarm of of(event.by)) startAgain(facts, alarm, event);
          return undefined;
        },
        'shown.alert': (event) => onAlert(facts, of(event.by), event),
      },
      waitingFor: (endMs) =>
        [...alarms].flatMap(([by, own]) =>
          own
            .filter((alarm) => isMissing(alarm) && (!alarm.again || isLate(facts, alarm, { by, at: endMs })))
            .map((alarm) => missingText(facts, by, alarm)),
        ),
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

/** What was lost of the dose has not passed its level; what has passed it and is not acknowledged calls. */
function startAgain(facts: Facts, alarm: Alarm, { by, at }: EventOf<'flash.recovered'>): void {
  if (facts.worker(by).total < alarm.level.leastDose) reset(alarm);
  else if (!alarm.raised || !alarm.acknowledged) {
    alarm.dueMs = at;
    alarm.raised = false;
    alarm.again = true;
  }
}

function onAlert(facts: Facts, alarms: readonly Alarm[], event: EventOf<'shown.alert'>): string | undefined {
  const index = alarms.findIndex((one) => one.level.level === event.level);
  const alarm = alarms[index];
  // One that is not due at all comes too early, which another invariant says.
  if (alarm === undefined || alarm.dueMs < 0) return undefined;
  const late = event.again > 0 ? overdue(facts, alarms, event) : undefined;
  for (const lower of alarms.slice(0, index + 1)) if (lower.again) lower.raised = true;
  if (event.again > 0) return late;
  if (alarm.raised) return `${event.by} is alerted of ${event.level} a second time in one shift, not as a repetition`;
  alarm.raised = true;
  if (event.at === alarm.dueMs) return undefined;
  return `${missingText(facts, event.by, alarm)}, came only now`;
}

/** The first alert that is due since an earlier time; it is told of once. */
function overdue(facts: Facts, alarms: readonly Alarm[], event: { by: string; at: number }): string | undefined {
  for (const alarm of alarms) {
    if (!isMissing(alarm) || !isLate(facts, alarm, event)) continue;
    alarm.raised = true;
    return `${missingText(facts, event.by, alarm)}, did not come with its tally`;
  }
  return undefined;
}

function isLate(facts: Facts, { dueMs, again }: Alarm, { by, at }: { by: string; at: number }): boolean {
  const { awake, awakeSinceMs, clock } = facts.device(by);
  if (!again || awakeSinceMs <= dueMs) return awake && at !== dueMs;
  return awake && clock.least(awakeSinceMs, at) > CALLS_WITHIN_MS;
}

function isMissing(alarm: Alarm): boolean {
  return alarm.dueMs >= 0 && !alarm.raised;
}

function missingText(facts: Facts, worker: string, alarm: Alarm): string {
  return `the ${alarm.level.level} alert of ${worker}, due at ${clockText(facts.fromMs, alarm.dueMs)}`;
}

function newAlarm(level: LevelFacts): Alarm {
  return { level, dueMs: -1, raised: false, acknowledged: false, again: false };
}

function reset(alarm: Alarm): void {
  alarm.dueMs = -1;
  alarm.raised = false;
  alarm.acknowledged = false;
  alarm.again = false;
}
