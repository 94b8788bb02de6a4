// What goes wrong, and is right again, in words: with the air, sensors, power, cells, clocks and flash, and by people with bad
// intent; what comes to nothing; and what the devices themselves say of it.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import { type Display, displayOf, isLive } from '../../trace/moment-display.js';
import type { TimelineLine } from './line.js';
import { RecordWatch } from './records.js';

/** All of them, and what is read out or heard late, in the order of the events. */
export function troubleLines(events: readonly TraceEvent[]): readonly TimelineLine[] {
  const shown = new Map<string, Display>();
  const records = new RecordWatch(events);
  const lines: TimelineLine[] = [];
  for (const event of events) {
    const text = records.see(event) ?? troubleText(event, shown.get(event.by) ?? null);
    if (text !== undefined) lines.push({ atMs: event.at, who: event.by, text });
    if (event.kind === 'shown.display') shown.set(event.by, displayOf(event));
  }
  return lines;
}

/** The same without "fault: ", where a heading says so. */
export function bareText(text: string): string {
  return text.replace(/^fault(?: over)?: /, '');
}

/** before: what the display of the event's device showed before it. Undefined where nothing goes wrong. */
export function troubleText(event: TraceEvent, before: Display | null): string | undefined {
  switch (event.kind) {
    case 'hand.nothing':
      return `"${event.verb}" comes to nothing: ${event.reason}`;
    case 'fault.air':
      return `fault: the air to ${event.worker} ${airText(event)}`;
    case 'fault.sensor':
      return `fault: its sensor is ${event.fault}`;
    case 'fault.planned':
      return `fault: its power is to fail within the next ${event.what.slice('cut '.length)}`;
    case 'fault.cut':
      return CUT_TEXTS[event.during] ?? `fault: its power fails (${event.during})`;
    case 'fault.cell':
      return `fault: its cell has ${event.percent} % left`;
    case 'fault.clock':
      return `fault: its clock ${clockText(event)}`;
    case 'fault.page':
      return `fault: page ${event.page} of its flash goes bad`;
    case 'fault.attack':
      return `fault: somebody ${ATTACK_TEXTS[event.how] ?? event.how} between it and ${event.worker}`;
    case 'fault.lifted':
      return liftedText(event.what);
    case 'shown.display':
      return saidText(event, before);
    default:
      return undefined;
  }
}

const CUT_TEXTS: Readonly<Record<string, string>> = {
  now: 'fault: its power fails',
  write: 'fault: its power fails within a write to its flash',
  erase: 'fault: its power fails within an erase of its flash',
  exchange: 'its cell is exchanged: no power meanwhile',
  'brown-out': 'its cell is empty: no power',
};

const ATTACK_TEXTS: Readonly<Record<string, string>> = {
  replay: 'sends old frames again',
  alter: 'sends altered frames',
  forge: 'sends forged frames',
  flood: 'sends nonsense',
  middle: 'stands in the middle of pairings',
};

const PARTS_PER_PERCENT = 10_000;

/** "is 400 ppm fast and gains 20 ppm an hour" */
function clockText({ ppm, driftPpm }: EventOf<'fault.clock'>): string {
  const size = Math.abs(ppm);
  const off = size % PARTS_PER_PERCENT === 0 ? `${size / PARTS_PER_PERCENT} %` : `${size} ppm`;
  const rate = ppm === 0 ? 'is right' : `is ${off} ${ppm > 0 ? 'fast' : 'slow'}`;
  if (driftPpm === 0) return rate;
  return `${rate} and ${driftPpm > 0 ? 'gains' : 'loses'} ${Math.abs(driftPpm)} ppm an hour`;
}

function liftedText(what: string): string {
  const [thing = '', ...name] = what.split(' ');
  const worker = name.join(' ');
  switch (thing) {
    case 'power':
      return 'has power again';
    case 'air':
      return `fault over: the air to ${worker} is clear`;
    case 'attack':
      return `fault over: the attack between it and ${worker}`;
    default:
      return `fault over: its ${thing} is right again`;
  }
}

/** What a device says of itself by its display, once it begins to. */
function saidText({ screen, icons }: EventOf<'shown.display'>, before: Display | null): string | undefined {
  if (screen === 'asleep' && before?.screen !== 'asleep') return 'sleeps: its cell is too low';
  if (before?.screen === 'asleep' && screen !== 'dark' && screen !== 'asleep') return 'is awake again';
  const known = isLive(before) ? (before?.icons ?? []) : [];
  if (icons.includes('journal') && !known.includes('journal')) return 'says that its journal has failed';
  if (icons.includes('cell') && !known.includes('cell')) return 'says that its cell is low';
  return undefined;
}

function airText(event: EventOf<'fault.air'>): string {
  const { delayFromMs, delayToMs, duplicateDen, duplicateNum, errorDen, errorNum, lossDen, lossNum } = event;
  return [
    lossNum === 0 ? '' : lossNum === lossDen ? 'loses every frame' : `loses ${lossNum} of ${lossDen} frames`,
    duplicateNum === 0 ? '' : `doubles ${duplicateNum} of ${duplicateDen}`,
    errorNum === 0 ? '' : `changes bits in ${errorNum} of ${errorDen}`,
    `delays by ${delayFromMs} to ${delayToMs} ms`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}
