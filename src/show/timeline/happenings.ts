// What happened, event by event, as far as it matters to a reader.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Moment } from '../../trace/moment.js';
import { pointsUsed } from '../standing.js';
import { passesText, tenthsText } from '../words.js';

/** The text of an event, given the moment after it; undefined for what does not matter here. */
export function happeningText(event: TraceEvent, moment: Moment): string | undefined {
  const worker = moment.workers.find(({ name }) => name === event.by);
  switch (event.kind) {
    case 'hand.leave':
      return `goes out of reach${together(event)}`;
    case 'hand.return':
      return `is back${together(event)}`;
    case 'hand.nothing':
      return `"${event.verb}" comes to nothing: ${event.reason}`;
    case 'inner.magnitude':
      return event.tenths === 0 ? 'has no magnitude' : `is set to ${tenthsText(event.tenths)} m/s²`;
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
      return faultText(event);
  }
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
  return what === 'closed' ? `shift ${shift} closes at ${points} points` : `shift ${shift} has lasted over 16 h`;
}

function faultText(event: TraceEvent): string | undefined {
  switch (event.kind) {
    case 'fault.air':
      return `fault: the air to ${event.worker} ${airText(event)}`;
    case 'fault.sensor':
      return `fault: its sensor is ${event.fault}`;
    case 'fault.lifted':
      return `fault over: ${event.what}`;
    default:
      return undefined;
  }
}

function airText(event: EventOf<'fault.air'>): string {
  const { delayFromMs, delayToMs, duplicateDen, duplicateNum, lossDen, lossNum } = event;
  return [
    lossNum === 0 ? '' : lossNum === lossDen ? 'loses every frame' : `loses ${lossNum} of ${lossDen} frames`,
    duplicateNum === 0 ? '' : `doubles ${duplicateNum} of ${duplicateDen}`,
    `delays by ${delayFromMs} to ${delayToMs} ms`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}
