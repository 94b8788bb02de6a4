// What happened lately: alerts as they fell, and below them what was said over the air, the newest last.
import { Box, Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { alertsOf, type WorkersAlert } from '../alerts.js';
import { hourMinuteText, secondsText } from '../times.js';
import { passesText } from '../words.js';
import { AirLog } from './AirLog.js';
import { WIDE_LOG_COLUMNS } from './layout.js';

interface Props {
  readonly moment: Moment;
  readonly columns: number;
  readonly rows: number;
}

const HEADINGS = 2;
/** At most this share of the rows is for alerts. */
const ALERTS_SHARE = 0.4;

export function Log({ moment, columns, rows }: Props) {
  if (rows <= HEADINGS) return null;
  const alerts = alertsOf(moment);
  const room = Math.max(1, Math.floor((rows - HEADINGS) * ALERTS_SHARE));
  const shown = alerts.slice(-room);
  const airRows = rows - HEADINGS - Math.max(1, shown.length);
  return (
    <Box flexDirection="column" width={columns} height={rows} overflow="hidden">
      <Text dimColor wrap="truncate-end">
        alerts
      </Text>
      {shown.length === 0 ? <Text dimColor>none yet</Text> : null}
      {shown.map(({ alert, worker }) => (
        <Text key={`${worker.name} ${alert.level} ${alert.atMs}`} wrap="truncate-end">
          {alertLine(moment.fromMs, { alert, worker }, columns >= WIDE_LOG_COLUMNS)}
        </Text>
      ))}
      <Text dimColor wrap="truncate-end">
        over the air, lately
      </Text>
      <AirLog moment={moment} rows={airRows} columns={columns} />
    </Box>
  );
}

function alertLine(fromMs: number, { alert, worker }: WorkersAlert, wide: boolean): string {
  const pending = alert.acknowledgedAtMs === null ? '!' : ' ';
  const passes = `${worker.name} ${passesText(alert.level, worker.levels)}`;
  if (!wide) return `${hourMinuteText(fromMs, alert.atMs)} ${pending} ${passes}`;
  return `${secondsText(fromMs, alert.atMs)} ${pending} ${passes}${pending === '!' ? ', not acknowledged' : ''}`;
}
