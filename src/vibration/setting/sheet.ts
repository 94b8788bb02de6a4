// The measuring sheet: what was done when an operation was measured. Without it a number is of no operation, and nobody can tell
// whether the chain that measured it was right.
import type { Finding } from '../recording/recording.js';

/** A check of the whole chain on a calibrator, m/s². */
export interface CalibrationCheck {
  readonly reference: number;
  readonly before: number | null;
  readonly after: number | null;
}

/** null: not filled in. */
export interface Sheet {
  readonly operator: string | null;
  readonly operation: string | null;
  readonly material: string | null;
  readonly accessory: string | null;
  readonly mounting: string | null;
  readonly place: string | null;
  readonly calibration: CalibrationCheck | null;
  /** Expanded uncertainty (k = 2) of the chain as a part of the value, from its certificate: 0.1 is 10 %. */
  readonly chainUncertainty: number | null;
}

/** What the sheet must say before a setting may be taken from it: the rest only describes. */
const NEEDED = ['operation', 'mounting', 'calibration', 'chainUncertainty'] as const;
const WANTED = ['operator', 'material', 'accessory', 'place'] as const;

const IN_WORDS: Readonly<Record<(typeof NEEDED | typeof WANTED)[number], string>> = {
  operation: 'which operation was measured',
  mounting: 'how the transducer was mounted',
  calibration: 'of a calibration check before and after',
  chainUncertainty: 'how uncertain the measuring chain is',
  operator: 'who held the tool',
  material: 'on what it worked',
  accessory: 'with which bit, disc or blade',
  place: 'where on the handle it was measured',
};

/** A reading on the calibrator may differ so much from its reference, as a part (common practice). */
const MOST_DEVIATION = 0.05;

export function sheetFindings(sheet: Sheet | null): readonly Finding[] {
  if (sheet === null) {
    const says = 'there is no measuring sheet: nothing tells what was measured, and whether the chain was right';
    return [{ weight: 'doubts', what: 'sheet-missing', says }];
  }
  const gap =
    (weight: Finding['weight']) =>
    (field: keyof typeof IN_WORDS): readonly Finding[] =>
      sheet[field] === null ? [{ weight, what: 'sheet-gap', says: `the sheet does not say ${IN_WORDS[field]}` }] : [];
  return [...NEEDED.flatMap(gap('doubts')), ...WANTED.flatMap(gap('notes')), ...calibrationFindings(sheet.calibration)];
}

function calibrationFindings(check: CalibrationCheck | null): readonly Finding[] {
  if (check === null) return [];
  const { before, after } = check;
  const drift = before === null || after === null ? 0 : after / before - 1;
  const says = `the calibration check moves by ${percent(drift)} from before to after the measurement`;
  const drifts: Finding = { weight: 'doubts', what: 'calibration-drifts', says };
  const single = (['before', 'after'] as const).flatMap((when): readonly Finding[] => {
    const reading = check[when];
    if (reading === null) {
      return [
        {
          weight: 'doubts',
          what: 'sheet-gap',
          says: `the sheet does not say of a calibration check ${when} the measurement`,
        },
      ];
    }
    const off = reading / check.reference - 1;
    if (Math.abs(off) <= MOST_DEVIATION) return [];
    const says = `the calibration check ${when} the measurement reads ${reading} m/s² of ${check.reference} m/s²: ${percent(off)} off`;
    return [{ weight: 'doubts', what: 'calibration-off', says }];
  });
  return Math.abs(drift) > MOST_DEVIATION ? [...single, drifts] : single;
}

function percent(part: number): string {
  return `${(100 * part).toFixed(1)} %`;
}
