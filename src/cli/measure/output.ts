// The result of a measurement as JSON (src/cli/schemas/measure.schema.json).
import { tenthsRoundedUp } from '../../exposure/tenths.js';
import type { Finding } from '../../vibration/recording/recording.js';
import { LEAST_SAMPLE_S } from '../../vibration/setting/operation.js';
import { isFinding, isSettable } from '../../vibration/setting/recommend.js';
import type { Measured } from '../../vibration/values/measure.js';
import { THIRD_OCTAVES } from '../../vibration/weighting/bands.js';
import { AXES } from '../../vibration/weighting/filter.js';
import { CAUTIONS } from '../print/cautions.js';
import type { MeasureOutput } from '../schemas/measure.js';
import type { FileResult, HandResult, MeasureResult } from './result.js';

export function measureJson(result: MeasureResult): string {
  return `${JSON.stringify(measureOutputOf(result), null, 2)}\n`;
}

export function measureOutputOf({ files, hands, sheet, setting }: MeasureResult): MeasureOutput {
  const withheld = isFinding(setting);
  return {
    files: files.map((file) => fileOutput(file, sheet.findings)),
    hands: hands.map(handOutput),
    sheet: { file: sheet.file, findings: [...sheet.findings] },
    set: {
      recommendedMagnitude: withheld ? null : setting.magnitude,
      uncertainty: withheld ? null : setting.uncertainty,
      hand: withheld ? null : setting.hand,
      findings: withheld ? [setting] : [],
    },
    cautions: [...CAUTIONS],
  };
}

function fileOutput(
  { file, hand, rateHz, values, findings }: FileResult,
  ofSheet: readonly Finding[],
): MeasureOutput['files'][number] {
  const isShort = values !== null && values.durationS < LEAST_SAMPLE_S;
  const doubted = isShort || [...findings, ...ofSheet].some(({ weight }) => weight !== 'notes');
  const rounded = values === null ? 0 : tenthsRoundedUp(values.total) / 10;
  return {
    file,
    hand,
    sampleRateHz: rateHz,
    durationS: values?.durationS ?? null,
    values: values === null ? null : valuesOutput(values),
    findings: [...findings],
    recommendedMagnitude: doubted || !isSettable(rounded) ? null : rounded,
  };
}

function valuesOutput({
  axes,
  total,
  greatestSecond,
}: Measured): NonNullable<MeasureOutput['files'][number]['values']> {
  const byAxis = AXES.map((axis) => {
    const { band, crestFactor, offset, bands, weightedFromBands } = axes[axis];
    const thirdOctaves = bands?.map((rms, at) => ({ hz: THIRD_OCTAVES[at]!.nominalHz, rms })) ?? null;
    return [axis, { band, crestFactor, offset, a_hwFromThirdOctaves: weightedFromBands, thirdOctaves }] as const;
  });
  return {
    a_hwx: axes.x.weighted,
    a_hwy: axes.y.weighted,
    a_hwz: axes.z.weighted,
    a_hv: total,
    greatestSecond,
    axes: Object.fromEntries(byAxis) as NonNullable<MeasureOutput['files'][number]['values']>['axes'],
  };
}

function handOutput({ hand, files, value }: HandResult): MeasureOutput['hands'][number] {
  const { total, durationS, least, greatest, variation, findings } = value;
  return { hand, files, durationS, a_hv: total, least, greatest, variation, findings: [...findings] };
}
