// What a measurement comes to, before it is printed.
import type { Finding } from '../../vibration/recording/recording.js';
import type { OperationValue } from '../../vibration/setting/operation.js';
import type { Hand, recommend } from '../../vibration/setting/recommend.js';
import type { Measured } from '../../vibration/values/measure.js';

/** One file; values null where a finding refuses them. */
export interface FileResult {
  readonly file: string;
  readonly hand: Hand | null;
  readonly rateHz: number;
  readonly values: Measured | null;
  readonly findings: readonly Finding[];
}

export interface HandResult {
  readonly hand: Hand | null;
  readonly files: number;
  readonly value: OperationValue;
}

export interface MeasureResult {
  readonly files: readonly FileResult[];
  /** Of the files that have a value. */
  readonly hands: readonly HandResult[];
  readonly sheet: { readonly file: string | null; readonly findings: readonly Finding[] };
  readonly setting: ReturnType<typeof recommend>;
}
