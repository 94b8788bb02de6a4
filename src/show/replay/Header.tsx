// The top of the frame: the clock, and beside it the title, how fast the day goes, the day from end to end, and the
// alert that matters now.
import { Box, Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { Clock } from './Clock.js';
import { DayLine } from './DayLine.js';
import { NewestAlert } from './NewestAlert.js';
import type { Player } from './player.js';

/** The clock with its seconds, and the gap to what stands beside it. */
const CLOCK_COLUMNS = 26;

interface Props {
  readonly title: string;
  readonly moment: Moment;
  readonly player: Player;
  readonly columns: number;
}

export function Header({ title, moment, player, columns }: Props) {
  const beside = columns - CLOCK_COLUMNS;
  const pace = player.playing ? `playing ${player.speed}×` : `paused ${player.speed}×`;
  return (
    <Box justifyContent="space-between">
      <Clock fromMs={moment.fromMs} atMs={moment.atMs} />
      <Box flexDirection="column" width={beside}>
        <Box justifyContent="space-between">
          <Box width={beside - pace.length - 2}>
            <Text wrap="truncate-end" bold>
              {title}
            </Text>
          </Box>
          <Text>{pace}</Text>
        </Box>
        <DayLine moment={moment} columns={beside} />
        <NewestAlert moment={moment} />
      </Box>
    </Box>
  );
}
