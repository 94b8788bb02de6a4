// What happened lately: alerts as they fell, what went wrong and what was read out, and below them what was said over the air, the newest last.
import { Box, Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import type { TimelineLine } from '../timeline/line.js';
import { AirLog } from './AirLog.js';
import { WIDE_LOG_COLUMNS } from './layout.js';
import { logLines } from './log-lines.js';

interface Props {
  readonly moment: Moment;
  /** Of the whole day, in order of time. */
  readonly troubles: readonly TimelineLine[];
  readonly columns: number;
  readonly rows: number;
}

const HEADINGS = 2;
/** At most this share of the rows is for alerts and troubles. */
const ALERTS_SHARE = 0.4;

export function Log({ moment, troubles, columns, rows }: Props) {
  if (rows <= HEADINGS) return null;
  const room = Math.max(1, Math.floor((rows - HEADINGS) * ALERTS_SHARE));
  const shown = logLines(moment, troubles, room, columns >= WIDE_LOG_COLUMNS);
  const airRows = rows - HEADINGS - Math.max(1, shown.length);
  return (
    <Box flexDirection="column" width={columns} height={rows} overflow="hidden">
      <Text dimColor wrap="truncate-end">
        alerts and events
      </Text>
      {shown.length === 0 ? <Text dimColor>none yet</Text> : null}
      {shown.map(({ atMs, text }, line) => (
        // Two devices may say the same at the same time.
        // biome-ignore lint/suspicious/noArrayIndexKey: see above
        <Text key={`${line} ${atMs}`} wrap="truncate-end">
          {text}
        </Text>
      ))}
      <Text dimColor wrap="truncate-end">
        over the air, lately
      </Text>
      <AirLog moment={moment} rows={airRows} columns={columns} />
    </Box>
  );
}
