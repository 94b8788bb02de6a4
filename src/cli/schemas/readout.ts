// What `counterproof readout --json` prints. readout.schema.json beside this file is made from it; the command itself needs
// only the type, so that it starts without loading a schema library.
import { z } from 'zod';

const count = z.int().min(0);
const ms = z.int().min(0);
const identity = z.int().min(0).max(65_535);
const dose = z.int().min(0).describe('exact dose in u = (0.1 m/s²)² · ms; 180 000 000 u are one point');
const points = z.number().min(0).nullable().describe('exposure points, not rounded; null where all time was unrated');
const triggerMs = ms.describe('trigger time, the unrated time in it');
const unratedMs = ms.describe('trigger time at no magnitude, of which no dose was made');
const sums = { dose, points, triggerMs, unratedMs };
const named = (what: string) =>
  z.string().nullable().describe(`${what}; null where the scenario has no device of this identity`);
const readOutAtMs = ms.nullable().describe('ms since the start of the day; null where the record came from a file');
const cautions = z.array(z.string()).min(1);

const session = z.strictObject({
  tool: named('of the counter'),
  counter: identity,
  session: count,
  ...sums,
  shortBursts: count.describe('bursts too short to be counted, as last reported'),
  powerLosses: count.describe('losses of power of the counter, in all, as last reported'),
  sealed: z.boolean().describe('whether the counter has told its last tally of this session'),
});

const shift = z.strictObject({
  shift: count,
  ...sums,
  a8: z.number().min(0).nullable().describe('A(8) in m/s², not rounded; null where all time was unrated'),
  open: z.boolean(),
  long: z.boolean().describe('more than 16 h'),
  incomplete: z.array(z.string()).describe('why its sums may be too small'),
  sessions: z.array(session),
  forgotten: z
    .strictObject(sums)
    .nullable()
    .describe('what sessions made of which only the sums are kept; null where there is none'),
});

const wearable = z.strictObject({
  record: z.literal('wearable'),
  worker: z.string(),
  wearable: identity,
  readOutAtMs,
  shifts: z.array(shift).describe('oldest first'),
  earlier: z.array(session).describe('sessions of shifts that are no longer kept'),
  cautions,
});

const undelivered = z.strictObject({
  worker: named('whose wearable never acknowledged it'),
  wearable: identity,
  session: count,
  ...sums,
  shortBursts: count,
  flags: z.array(z.string()).describe('of the last tally of the session'),
});

const counter = z.strictObject({
  record: z.literal('counter'),
  tool: z.string(),
  counter: identity,
  readOutAtMs,
  powerLosses: count.describe('in all'),
  unclaimed: z
    .strictObject({ dose, points, triggerMs })
    .describe('counted outside any session, in all, and charged to nobody'),
  undelivered: z
    .array(undelivered)
    .describe(
      'sessions that the counter has let go of with this readout; the sums are of the whole session, what its wearable had heard included',
    ),
  cautions,
});

export const readoutOutput = z
  .discriminatedUnion('record', [wearable, counter])
  .meta({ title: 'Output of counterproof readout --json' });

export type WearableOutput = z.infer<typeof wearable>;
export type CounterOutput = z.infer<typeof counter>;
export type ReadoutOutput = z.infer<typeof readoutOutput>;
