// What was said over the air lately. What did not arrive stands out; what did needs no word.
import { Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import type { Fate } from '../../trace/moment-air.js';
import { hourMinuteText, secondsText } from '../times.js';
import { frameContent, frameWord, lostWord, senderWord } from '../words.js';
import { type AirGroup, airGroups } from './air-groups.js';
import { WIDE_LOG_COLUMNS } from './layout.js';

interface Props {
  readonly moment: Moment;
  readonly rows: number;
  readonly columns: number;
}

export function AirLog({ moment, rows, columns }: Props) {
  const shown = airGroups(moment.air).slice(0, Math.max(0, rows));
  if (shown.length === 0) return rows > 0 ? <Text dimColor>nothing yet</Text> : null;
  return shown.map((group) => (
    <Text key={group.frame.sent.n} wrap="truncate-end" bold={!['heard', 'sent'].includes(group.frame.fate)}>
      {lineOf(moment.fromMs, group, columns >= WIDE_LOG_COLUMNS)}
    </Text>
  ));
}

function lineOf(fromMs: number, { frame: { sent, fate, reason }, count }: AirGroup, wide: boolean): string {
  const words = [
    `${(wide ? secondsText : hourMinuteText)(fromMs, sent.at)} ${senderWord(sent)} → ${sent.to}`,
    frameWord(sent),
    fateWords(fate, reason, wide),
    count > 1 ? `×${count}` : '',
    wide ? frameContent(sent) : '',
  ];
  return words.filter((word) => word !== '').join(wide ? '  ' : ' ');
}

function fateWords(fate: Fate, reason: string, wide: boolean): string {
  if (fate === 'heard') return '';
  if (fate === 'sent') return '…';
  if (fate === 'refused') return wide ? `refused (${reason})` : fate;
  if (wide) return lostWord(reason);
  return reason === 'intercepted' ? 'kept back' : fate;
}
