// What happened, event by event, as far as it matters to a reader.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Moment } from '../../trace/moment.js';
import type { Display } from '../../trace/moment-display.js';
import { pointsUsed } from '../standing.js';
import { passesText, pointsWord, tenthsText } from '../words.js';
import { troubleText } from './troubles.js';

/** The text of an event, given the moments before and after it; undefined for what does not matter here. */
export function happeningText(event: TraceEvent, before: Moment, moment: Moment): string | undefined {
  const worker = moment.workers.find(({ name }) => name === event.by);
  switch (event.kind) {
    case 'hand.leave':
      return `goes out of reach${together(event)}`;
    case 'hand.return':
      return `is back${together(event)}`;
    case 'hand.carry':
      return 'is carried in a van';
    case 'hand.arrive':
      return 'arrives';
    case 'inner.magnitude':
      return isFound(event, before) ? undefined : magnitudeText(event.tenths);
    case 'inner.session':
      return event.what === 'opened' ? `is paired with ${event.with}, session ${event.session}` : undefined;
    case 'inner.shift':
      return shiftText(event.what, event.shift, worker === undefined ? 0 : pointsUsed(worker));
    case 'inner.incomplete':
      return `shift ${event.shift} is incomplete: ${event.counter}, ${event.why}`;
    case 'shown.alert':
      return event.again === 0 ? `! ${passesText(event.level, worker?.levels ?? [])}` : undefined;
    case 'shown.mark':
      return event.on ? `marks ${event.counter} as ${event.mark}` : undefined;
    default:
      return troubleText(event, displayOf(before, event.by));
  }
}

function displayOf({ workers, tools }: Moment, name: string): Display | null {
  const device = [...workers, ...tools].find((one) => one.name === name);
  return device?.display ?? null;
}

/** Whether a counter that has power again only says what it was set to before. */
function isFound({ by, tenths }: EventOf<'inner.magnitude'>, before: Moment): boolean {
  const tool = before.tools.find(({ name }) => name === by);
  return tool?.display?.screen === 'dark' && tool.setTenths === tenths;
}

function magnitudeText(tenths: number): string {
  return tenths === 0 ? 'has no magnitude' : `is set to ${tenthsText(tenths)} m/s²`;
}

/** Whether a tap acknowledges alerts: there were pending ones before it, and none after. */
export function acknowledges(event: TraceEvent, before: Moment, after: Moment): boolean {
  return event.kind === 'input.tap' && pending(before, event.by) > 0 && pending(after, event.by) === 0;
}

function pending(moment: Moment, name: string): number {
  const worker = moment.workers.find((one) => one.name === name);
  return worker?.alerts.filter((alert) => alert.acknowledgedAtMs === null).length ?? 0;
}

/** Who went the same way at the same time. */
function together({ by, who }: EventOf<'hand.leave'> | EventOf<'hand.return'>): string {
  const others = who.filter((name) => name !== by);
  return others.length === 0 ? '' : `, with ${others.join(', ')}`;
}

function shiftText(what: string, shift: number, points: number): string {
  if (what === 'opened') return `shift ${shift} opens`;
  return what === 'closed'
    ? `shift ${shift} closes at ${pointsWord(`${points}`)}`
    : `shift ${shift} has lasted over 16 h`;
}
