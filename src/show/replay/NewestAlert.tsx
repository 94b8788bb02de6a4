// The alert that matters now: the newest one that nobody has acknowledged, or the newest one for a while after it fell.
import { Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { alertsOf } from '../alerts.js';
import { hourMinuteText } from '../times.js';
import { passesText } from '../words.js';

/** How long an acknowledged alert stays in view, in ms of the day. */
const STAYS_MS = 15 * 60_000;

interface Props {
  readonly moment: Moment;
}

export function NewestAlert({ moment }: Props) {
  const alerts = alertsOf(moment);
  const newest = alerts.findLast(({ alert }) => alert.acknowledgedAtMs === null) ?? alerts.at(-1);
  if (newest === undefined) return <Text> </Text>;
  const { alert, worker } = newest;
  const pending = alert.acknowledgedAtMs === null;
  if (!pending && moment.atMs - alert.atMs > STAYS_MS) return <Text> </Text>;
  return (
    <Text wrap="truncate-end" bold inverse={pending}>
      {`! ${hourMinuteText(moment.fromMs, alert.atMs)} ${worker.name} ${passesText(alert.level, worker.levels)} `}
    </Text>
  );
}
