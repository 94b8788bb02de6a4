// The result of a measurement as text for a person.
import { higherHand } from '../../exposure/hands.js';
import type { Finding } from '../../vibration/recording/recording.js';
import { isFinding } from '../../vibration/setting/recommend.js';
import { AXES } from '../../vibration/weighting/filter.js';
import { CAUTIONS } from '../print/cautions.js';
import { inColumns } from '../print/columns.js';
import { findingLine, paragraphs } from '../print/findings.js';
import type { FileResult, HandResult, MeasureResult } from './result.js';

const HEAD = ['recording', 'hand', 'length', 'a_hwx', 'a_hwy', 'a_hwz', 'a_hv', 'greatest second', 'crest factors'];
const SIDES = ['left', 'left', 'right', 'right', 'right', 'right', 'right', 'right', 'left'] as const;

export function measureText({ files, hands, sheet, setting }: MeasureResult): string {
  const found = [
    ...files.flatMap(({ file, findings }) => findings.map((one) => findingLine(one, file))),
    ...hands.flatMap(({ hand, value }) =>
      value.findings.map((one) => findingLine(one, hand === null ? 'samples' : `${hand} hand`)),
    ),
    ...sheet.findings.map((one) => findingLine(one, sheet.file ?? 'sheet')),
  ];
  const parts = [
    inColumns([HEAD, ...files.map(fileRow)], SIDES),
    files.flatMap(offsetLine),
    hands.map(handLine),
    handsLine(hands),
    found,
    isFinding(setting) ? [`${upper(setting.says)}.`] : [settingLine(setting)],
    ['Values in m/s²: a_hw weighted as W_h (ISO 5349-1), a_hv the vibration total value.', ...CAUTIONS],
  ];
  return paragraphs(parts);
}

function fileRow({ file, hand, values }: FileResult): readonly string[] {
  if (values === null) return [file, hand ?? '-', ...HEAD.slice(2).map(() => '-')];
  const { axes, total, greatestSecond, durationS } = values;
  const weighted = AXES.map((axis) => axes[axis].weighted.toFixed(2));
  const crests = AXES.map((axis) => axes[axis].crestFactor.toFixed(1)).join(' ');
  return [
    file,
    hand ?? '-',
    `${durationS.toFixed(1)} s`,
    ...weighted,
    total.toFixed(2),
    greatestSecond?.toFixed(2) ?? '-',
    crests,
  ];
}

/** What lay under the vibration: gravity, as a rule. */
function offsetLine({ file, values }: FileResult): readonly string[] {
  if (values === null) return [];
  const means = AXES.map((axis) => `${axis} ${(Math.round(100 * values.axes[axis].offset) / 100 + 0).toFixed(2)}`).join(
    ', ',
  );
  return [`${file}: taken off before weighting, as the mean: ${means} m/s².`];
}

function handLine({ hand, files, value }: HandResult): string {
  const { total, durationS, least, greatest, variation } = value;
  const who = hand === null ? 'All samples' : `${upper(hand)} hand`;
  const average = `${who}: a_hv ${total.toFixed(2)} m/s², the energy average of ${counted(files, 'recording')}`;
  const spread =
    variation === null ? '' : `, from ${least.toFixed(2)} to ${greatest.toFixed(2)}, spread ${percent(variation)}`;
  return `${average} over ${durationS.toFixed(0)} s${spread}.`;
}

/** Directive 2002/44/EC, Annex A.2(b). */
function handsLine(hands: readonly HandResult[]): readonly string[] {
  const of = (which: 'left' | 'right') => hands.find(({ hand }) => hand === which)?.value.total;
  const [left, right] = [of('left'), of('right')];
  if (left === undefined || right === undefined) return [];
  const { deciding } = higherHand(left, right);
  return [
    deciding === 'both' ? 'Both hands have the same value.' : `The ${deciding} hand has the higher value: it counts.`,
  ];
}

function settingLine({ magnitude, uncertainty, hand }: Exclude<MeasureResult['setting'], Finding>): string {
  const whose = hand === null ? '' : `, the ${hand} hand's`;
  const uncertain = `expanded uncertainty ± ${(Math.ceil(10 * uncertainty) / 10).toFixed(1)} m/s²`;
  return `Set the counter to ${magnitude.toFixed(1)} m/s²${whose}, rounded up to 0.1; ${uncertain}.`;
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

function percent(part: number): string {
  return `${(100 * part).toFixed(1)} %`;
}

function upper(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
