// The alerts and troubles that there is room for: those that nobody has acknowledged, and the newest of the others, in order
// of time.
import type { Moment } from '../../trace/moment.js';
import { alertsOf, type WorkersAlert } from '../alerts.js';
import type { TimelineLine } from '../timeline/line.js';
import { bareText } from '../timeline/troubles.js';
import { hourMinuteText, secondsText } from '../times.js';
import { passesText } from '../words.js';

export interface LogLine {
  readonly atMs: number;
  readonly pending: boolean;
  readonly text: string;
}

/** troubles: of the whole day, in order of time; room: lines at most; wide: there is room for seconds and whole sentences. */
export function logLines(
  moment: Moment,
  troubles: readonly TimelineLine[],
  room: number,
  wide: boolean,
): readonly LogLine[] {
  const time = (atMs: number) => (wide ? secondsText : hourMinuteText)(moment.fromMs, atMs);
  const past = troubles.filter(({ atMs }) => atMs <= moment.atMs).slice(-room);
  const all = [
    ...alertsOf(moment).map((one) => alertLine(one, time(one.alert.atMs), wide)),
    ...past.map(({ atMs, who, text }) => ({ atMs, pending: false, text: `${time(atMs)}   ${who} ${bareText(text)}` })),
  ];
  const others = all.filter(({ pending }) => !pending).sort(byTime);
  const waiting = all.filter(({ pending }) => pending).slice(-room);
  const left = room - waiting.length;
  return [...waiting, ...(left > 0 ? others.slice(-left) : [])].sort(byTime);
}

function byTime(a: LogLine, b: LogLine): number {
  return a.atMs - b.atMs;
}

function alertLine({ alert, worker }: WorkersAlert, time: string, wide: boolean): LogLine {
  const pending = alert.acknowledgedAtMs === null;
  const passes = `${worker.name} ${passesText(alert.level, worker.levels)}`;
  const text = `${time} ${pending ? '!' : ' '} ${passes}${pending && wide ? ', not acknowledged' : ''}`;
  return { atMs: alert.atMs, pending, text };
}
