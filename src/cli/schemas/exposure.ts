// What `counterproof exposure --json` prints. exposure.schema.json beside this file is made from it; the command itself
// needs only the type, so that it starts without loading a schema library.
import { z } from 'zod';

const dose = z.int().min(0).describe('exact dose in u = (0.1 m/s²)² · ms; 180 000 000 u are one point');
const points = z.number().min(0).describe('exposure points, not rounded');
const a8 = z.number().min(0).describe('A(8) in m/s², not rounded');
const ms = z.int().min(0);
const magnitude = z.number().min(0.1).max(50).describe('vibration total value in m/s², a multiple of 0.1');
const level = z.enum(['action', 'limit']);

export const exposureOutput = z
  .strictObject({
    regime: z.strictObject({ id: z.string(), title: z.string(), source: z.string(), version: z.string() }),
    operations: z
      .array(z.strictObject({ magnitude, triggerMs: ms, dose, points, a8 }))
      .min(1)
      .describe('in the order given; a8 is the partial exposure of the operation alone'),
    day: z.strictObject({ triggerMs: ms, dose, points, a8 }),
    levels: z.array(
      z.strictObject({
        level,
        points,
        a8,
        compare: z
          .enum(['reached', 'exceeded'])
          .describe('whether the level counts once reached or only when exceeded'),
        clause: z.string(),
        stands: z.enum(['below', 'at', 'above']).describe('where the exact dose of the day lies'),
        passed: z.boolean().describe('whether the level counts, by the exact dose and compare'),
        leftDose: dose.describe('dose in u still missing to the level, 0 at or above it'),
      }),
    ),
    dailyCap: z
      .strictObject({ ms, leftMs: ms, clause: z.string() })
      .nullable()
      .describe('most trigger time a day on all tools together, where the regime has one'),
    timeLeft: z
      .array(
        z.strictObject({
          magnitude,
          toActionMs: ms,
          toLimitMs: ms,
          capped: z.boolean().describe('toLimitMs is what the cap on the day leaves, less than the limit value would'),
        }),
      )
      .describe('each magnitude once: trigger time left after these operations, were only this tool used'),
    cautions: z.array(z.string()).min(1),
  })
  .meta({ title: 'Output of counterproof exposure --json' });

export type ExposureOutput = z.infer<typeof exposureOutput>;
