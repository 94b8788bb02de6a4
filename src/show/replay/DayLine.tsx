// The day from end to end, how far it has gone, and where alerts have fallen so far.
import { Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { hourMinuteText } from '../times.js';

const GONE = '━';
const TO_COME = '─';
const NOW = '●';
const ALERT = '!';
/** "06:50 " and " 16:00". */
const TIMES_COLUMNS = 12;

interface Props {
  readonly moment: Moment;
  readonly columns: number;
}

export function DayLine({ moment, columns }: Props) {
  const { fromMs, untilMs } = moment;
  const length = Math.max(1, columns - TIMES_COLUMNS);
  return (
    <Text wrap="truncate-end">
      {hourMinuteText(fromMs, 0)} {line(moment, length)} {hourMinuteText(fromMs, untilMs)}
    </Text>
  );
}

function line({ atMs, untilMs, workers }: Moment, length: number): string {
  const columnOf = (ms: number) => Math.min(length - 1, Math.floor((ms * length) / untilMs));
  const now = columnOf(atMs);
  const row = Array.from<unknown, string>({ length }, (_, column) => (column < now ? GONE : TO_COME));
  for (const alert of workers.flatMap(({ alerts }) => alerts)) row[columnOf(alert.atMs)] = ALERT;
  row[now] = NOW;
  return row.join('');
}
