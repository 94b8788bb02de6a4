// What `counterproof measure --json` prints. measure.schema.json beside this file is made from it.
import { z } from 'zod';

const ms2 = z.number().min(0).describe('m/s², not rounded');
const seconds = z.number().min(0);
const finding = z.strictObject({
  weight: z
    .enum(['refuses', 'doubts', 'notes'])
    .describe('refuses: no value is given; doubts: no setting is recommended; notes: for the record'),
  what: z.string(),
  says: z.string(),
});
const findings = z.array(finding);
const hand = z.enum(['left', 'right']).nullable().describe('null where the hands are not told apart');
const recommendedMagnitude = z
  .number()
  .min(0.5)
  .max(50)
  .nullable()
  .describe('what to set a counter to, m/s², rounded up to 0.1; null where it is withheld, as a finding says');

const values = {
  a_hwx: ms2,
  a_hwy: ms2,
  a_hwz: ms2,
  a_hv: ms2.describe('vibration total value, m/s², not rounded'),
  greatestSecond: ms2
    .nullable()
    .describe('greatest running r.m.s. over one second of the total value, m/s²; null where there is none'),
  axes: z.record(
    z.enum(['x', 'y', 'z']),
    z.strictObject({
      band: ms2.describe('r.m.s. from 6.3 to 1250 Hz, not weighted, m/s²'),
      crestFactor: z.number().min(0),
      offset: z.number().describe('the mean that was taken off, m/s²'),
      a_hwFromThirdOctaves: ms2.nullable(),
      thirdOctaves: z
        .array(z.strictObject({ hz: z.number().describe('nominal centre'), rms: ms2 }))
        .nullable()
        .describe('null where the recording is too short for a spectrum'),
    }),
  ),
};

export const measureOutput = z
  .strictObject({
    files: z.array(
      z.strictObject({
        file: z.string(),
        hand,
        sampleRateHz: z.number().nullable(),
        durationS: seconds.nullable(),
        values: z.strictObject(values).nullable().describe('null where a finding refuses them'),
        findings,
        recommendedMagnitude: recommendedMagnitude.describe(
          'of this file by itself; null where it is shorter than 8 s, or something in it or in the sheet is in doubt',
        ),
      }),
    ),
    hands: z.array(
      z.strictObject({
        hand,
        files: z.int().min(1),
        durationS: seconds,
        a_hv: ms2.describe('energy average, m/s²'),
        least: ms2,
        greatest: ms2,
        variation: z.number().min(0).nullable().describe('standard deviation over mean; null for one file'),
        findings,
      }),
    ),
    sheet: z.strictObject({ file: z.string().nullable(), findings }),
    set: z.strictObject({
      recommendedMagnitude,
      uncertainty: ms2.nullable().describe('expanded, about 95 %, m/s²'),
      hand: hand.describe('the hand that the setting is of'),
      findings,
    }),
    cautions: z.array(z.string()).min(1),
  })
  .meta({ title: 'Output of counterproof measure --json' });

export type MeasureOutput = z.infer<typeof measureOutput>;
