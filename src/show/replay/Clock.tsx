// The shift clock: the time of day, large enough to be found at once.
import { Box, Text } from 'ink';
import { secondsText, timeText } from '../times.js';
import { bigRows } from './big-digits.js';

interface Props {
  readonly fromMs: number;
  readonly atMs: number;
}

const DAY_WORD = /^day \d+/;

export function Clock({ fromMs, atMs }: Props) {
  const time = secondsText(fromMs, atMs);
  const day = DAY_WORD.exec(timeText(fromMs, atMs))?.[0] ?? ' ';
  return (
    <Box flexShrink={0}>
      <Text bold>{bigRows(time.slice(0, 5)).join('\n')}</Text>
      <Box flexDirection="column" marginLeft={1} width={6}>
        <Text>{day}</Text>
        <Text> </Text>
        <Text>{time.slice(5)}</Text>
      </Box>
    </Box>
  );
}
