// What `counterproof detect --json` prints. detect.schema.json beside this file is made from it.
import { z } from 'zod';

const ms = z.number().describe('ms');
const count = z.int().min(0);

const tried = z.strictObject({
  settings: z.strictObject({
    onLevelMm: z.int().min(0).describe('mm/s², r.m.s. of a window of 100 ms from 6.3 to 1250 Hz'),
    offLevelMm: z.int().min(0).describe('mm/s²'),
    startAfter: z.int().min(1).describe('windows in a row'),
    stopAfter: z.int().min(1).describe('windows in a row'),
  }),
  trueMs: ms.describe('ms that the tool ran, by the truth, within the recording'),
  countedMs: ms,
  triggerTimeErrorMs: ms.describe('counted less true, ms'),
  falseMs: ms.describe('ms counted though it did not run'),
  missedMs: ms.describe('ms not counted though it ran'),
  falseBursts: count,
  missedBursts: count,
  shortBursts: count.describe('too short to be confirmed (TRG-3)'),
});

export const detectOutput = z
  .strictObject({
    file: z.string(),
    truth: z.string(),
    durationS: z.number().min(0).nullable(),
    byDefault: tried.nullable().describe('with the settings of TRG-1; null where the recording has no value'),
    best: tried.nullable().describe('the best of the sweep; null without --sweep'),
    tried: count.describe('settings that the sweep has tried'),
    findings: z.array(
      z.strictObject({ weight: z.enum(['refuses', 'doubts', 'notes']), what: z.string(), says: z.string() }),
    ),
    cautions: z.array(z.string()).min(1),
  })
  .meta({ title: 'Output of counterproof detect --json' });

export type DetectOutput = z.infer<typeof detectOutput>;
