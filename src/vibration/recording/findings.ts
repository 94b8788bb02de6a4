// What can be found wrong with a recording while it is read, as a closed list of words, and how much each weighs.
import type { Finding } from './recording.js';

export const FINDINGS = [
  'axes-missing',
  'channels-ignored',
  'unit-assumed',
  'lines-before-header',
  'rate-too-low',
  'rate-low',
  'rate-contradicted',
  'rate-drifts',
  'rows-bad',
  'lines-too-long',
  'gaps',
  'time-uneven',
  'time-backwards',
  'time-coarse',
  'samples-impossible',
  'clipped',
  'axis-flat',
  'empty',
  'too-short',
  'truncated',
  'length-unknown',
  'reading-failed',
  'changed',
] as const;

export type What = (typeof FINDINGS)[number];

/** Of the places where something was found, so many are told; the rest is counted. */
export const PLACES_TOLD = 5;

export function finding(weight: Finding['weight'], what: What, says: string): Finding {
  return { weight, what, says };
}

/** A number for a sentence: four digits that count. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** "1 row", "2 rows". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The first places, as told, and how many there are beyond them. */
export class Places {
  private readonly told: string[] = [];
  private all = 0;

  get count(): number {
    return this.all;
  }

  /** place is only asked for while places are told. */
  add(place: () => string): void {
    if (this.all < PLACES_TOLD) this.told.push(place());
    this.all += 1;
  }

  toString(): string {
    const rest = this.all - this.told.length;
    return this.told.join('; ') + (rest > 0 ? `; and ${rest} more` : '');
  }
}
