// What `counterproof readout` prints: the record that a device hands to its reader, taken from the trace of a scenario's run or
// from a file.
import { Bench } from '../../bench/bench.js';
import { readCounterRecord } from '../../counter/readout.js';
import type { ScenarioRun } from '../../scenario/scenario.js';
import { clockText } from '../../trace/clock.js';
import { type Devices, devicesOf, identityOf } from '../../trace/devices.js';
import { readWearableRecord } from '../../wearable/record.js';
import { momentMs, outsideText } from '../scenario/moment.js';
import { pickRun, type Refusal, unknown } from '../scenario/pick-run.js';
import type { ReadoutOutput } from '../schemas/readout.js';
import { counterText } from './counter-text.js';
import { readoutCsv } from './csv.js';
import { deviceText } from './device-text.js';
import { findRecord } from './find-record.js';
import { counterOutput, wearableOutput } from './output.js';
import { readSaved, savedName } from './saved.js';
import { wearableText } from './wearable-text.js';

export interface ReadoutOptions {
  /** The name of a worker, or of a tool: one of the two. */
  readonly wearable?: string;
  readonly counter?: string;
  readonly row?: string;
  readonly whatIf?: string;
  readonly at?: string;
  /** A file that has the record; - is standard input. */
  readonly record?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** The device that is asked for. */
interface Asked {
  readonly kind: 'wearable' | 'counter';
  readonly name: string;
  readonly devices: Devices;
}

/** The bytes of a record; readOutAtMs is null where they came from a file. */
interface Taken {
  readonly bytes: Uint8Array;
  readonly readOutAtMs: number | null;
}

export function answerReadout(file: string, options: ReadoutOptions): { readonly answer: string } | Refusal {
  const { wearable, counter, json, csv } = options;
  const name = wearable ?? counter;
  if (name === undefined) return { refusal: 'whose record? Name it: --wearable WORKER, or --counter TOOL\n' };
  const picked = pickRun(file, options);
  if ('refusal' in picked) return picked;
  const { run } = picked;
  const bench = Bench.open(run.day);
  const asked: Asked = {
    kind: wearable === undefined ? 'counter' : 'wearable',
    name,
    devices: devicesOf(bench.events),
  };
  const wrong = wrongName(file, asked);
  if (wrong !== null) return { refusal: wrong };
  const taken =
    options.record === undefined ? takeFromDay(file, run, bench, asked, options.at) : takeSaved(options.record);
  if ('refusal' in taken) return taken;
  const output = decode(taken, asked);
  const source = options.record === undefined ? file : savedName(options.record);
  if (typeof output === 'string') return { refusal: `${source}: the record cannot be taken: ${output}\n` };
  if (json === true) return { answer: `${JSON.stringify(output, null, 2)}\n` };
  if (csv === true) return { answer: readoutCsv(output) };
  const { readOutAtMs } = taken;
  const when = readOutAtMs === null ? `as in ${source}` : `read out at ${clockText(run.day.fromMs, readOutAtMs)}`;
  return { answer: output.record === 'wearable' ? wearableText(output, when) : counterText(output, when) };
}

/** Why nobody has a device of that kind under that name, or null. */
function wrongName(file: string, { kind, name, devices: { tools, workers } }: Asked): string | null {
  const [what, known, others, other] =
    kind === 'wearable'
      ? (['worker', workers, tools, `a tool, whose counter is read out: --counter "${name}"`] as const)
      : (['tool', tools, workers, `a worker, whose wearable is read out: --wearable "${name}"`] as const);
  if (known.includes(name)) return null;
  return others.includes(name) ? `${file}: "${name}" is ${other}\n` : unknown(file, what, name, known);
}

function takeFromDay(
  file: string,
  { day }: ScenarioRun,
  bench: Bench,
  asked: Asked,
  at: string | undefined,
): Taken | Refusal {
  const untilMs = momentMs(at, day.fromMs, day.untilMs);
  if (typeof untilMs === 'string') return { refusal: `--at ${untilMs}\n` };
  if (untilMs > day.untilMs) return { refusal: `--at ${at} ${outsideText(day)}\n` };
  bench.run();
  const { name, devices } = asked;
  const found = findRecord(bench.events, name, deviceText(devices, identityOf(devices, name)), untilMs, day);
  if (typeof found === 'string') return { refusal: `${file}: ${found}\n` };
  return { bytes: found.bytes, readOutAtMs: found.atMs };
}

function takeSaved(record: string): Taken | Refusal {
  const bytes = readSaved(record);
  return typeof bytes === 'string' ? { refusal: `${savedName(record)}: ${bytes}\n` } : { bytes, readOutAtMs: null };
}

/** The record as it is printed, or a sentence that says why it is refused. */
function decode({ bytes, readOutAtMs }: Taken, { kind, name, devices }: Asked): ReadoutOutput | string {
  const record = kind === 'wearable' ? readWearableRecord(bytes) : readCounterRecord(bytes);
  if (typeof record === 'string') return record;
  const wanted = identityOf(devices, name);
  if (record.device !== wanted) {
    return `it is of ${deviceText(devices, record.device)}, not of ${deviceText(devices, wanted)}`;
  }
  return 'shifts' in record
    ? wearableOutput(record, name, readOutAtMs, devices)
    : counterOutput(record, name, readOutAtMs, devices);
}
