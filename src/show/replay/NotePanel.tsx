// What the instructor asks and says: the last note whose time has come, until the next one's.
import { Box, Text } from 'ink';
import type { Note } from '../../scenario/scenario.js';
import type { Moment } from '../../trace/moment.js';
import { hourMinuteText } from '../times.js';

/** A note never takes more rows than this. */
const MOST_ROWS = 4;

interface Props {
  readonly notes: readonly Note[];
  readonly moment: Moment;
  readonly rows: number;
}

/** Rows to keep free for the longest of the notes at a width; 0 where there are none. */
export function noteRows(notes: readonly Note[], columns: number): number {
  const longest = Math.max(0, ...notes.map((note) => textOf(note, '00:00').length));
  // Wrapping between words needs a little more than the letters alone.
  return Math.min(MOST_ROWS, Math.ceil(longest / (columns * 0.9)));
}

export function NotePanel({ notes, moment, rows }: Props) {
  const note = notes.findLast((one) => one.atMs <= moment.atMs);
  const time = hourMinuteText(moment.fromMs, note?.atMs ?? 0);
  return (
    <Box height={rows} flexShrink={0} overflow="hidden">
      {note !== undefined && (
        <Text wrap="wrap">
          <Text bold>{note.ask === null ? time : `${time}  ${note.ask}`}</Text>
          {`  ${note.say}`}
        </Text>
      )}
    </Box>
  );
}

function textOf({ ask, say }: Note, time: string): string {
  return ask === null ? `${time}  ${say}` : `${time}  ${ask}  ${say}`;
}
