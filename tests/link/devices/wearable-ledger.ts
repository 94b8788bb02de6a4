// What a wearable must have in its ledger and its shifts (WEA-1, TAL-3, TAL-7), against what it says.
import type { Secured } from '../../../src/link/frames.js';
import { largest, TALLY_BITS } from '../../../src/link/layout.js';
import type { Tally } from '../../../src/link/messages.js';
import type { LedgerEntry, SessionSums } from '../../../src/port/inner.js';
import type { WearableRig } from '../../rig/wearable-rig.js';

/** A session that the wearable has the key of, and what it must have in its ledger. */
export interface Entry {
  readonly counter: number;
  readonly session: number;
  readonly link: number;
  readonly secured: Secured;
  readonly shift: number;
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
  highest: number;
  /** Sequence of the last tally by which it grew. */
  highestGrown: number;
  highestReport: number;
  /** When a tally was taken last; null where nobody knows how long ago that was. */
  heardMs: number | null;
  confirmed: boolean;
}

const SUMS = ['dose', 'triggerWindows', 'unratedWindows'] as const;

/** TAL-7: 50 m/s², which is 250 000 u a ms; 4 %, in whole ms, for two clocks; 10 s for what was on its way. */
const MOST_U_PER_MS = 250_000;
const SPARE_MS = 10_000;

/** The most dose that a tally may say now. */
export function mostDose({ dose, heardMs }: Entry, nowMs: number): number {
  if (heardMs === null) return Infinity;
  return dose + MOST_U_PER_MS * (Math.ceil(((nowMs - heardMs) * 104) / 100) + SPARE_MS);
}

/** A tally that was taken. True where the entry grows by it. */
export function charge(entry: Entry, tally: Tally, nowMs: number): boolean {
  if (tally.sequence === entry.highest) return false;
  const grown = SUMS.filter((field) => tally[field] > entry[field]);
  for (const field of grown) entry[field] = tally[field];
  entry.highest = tally.sequence;
  entry.heardMs = nowMs;
  entry.confirmed = true;
  if (grown.length > 0) entry.highestGrown = tally.sequence;
  return grown.length > 0;
}

/** What is wrong with the sums of its shifts, or null. */
export function faultOfShifts(rig: WearableRig, entries: readonly Entry[]): string | null {
  for (const shift of rig.observe()) {
    const due = sumOf(entries.filter((entry) => entry.shift === shift.shift));
    const wrong = SUMS.find((field) => due[field] !== shift[field]);
    if (wrong !== undefined) return `${wrong} of shift ${shift.shift} is ${shift[wrong]}, not ${due[wrong]}`;
  }
  return null;
}

/** Whether these entries, each once and nothing else, are what was told. */
export function areTold(entries: readonly Entry[], told: readonly LedgerEntry[]): boolean {
  return told.length === entries.length && entries.every((entry) => told.some((one) => isTold(entry, one)));
}

function isTold(entry: Entry, told: LedgerEntry): boolean {
  const names = entry.counter === told.counter && entry.session === told.session && entry.shift === told.shift;
  return names && SUMS.every((field) => entry[field] === told[field]);
}

/** ACC-2: each sum stands at the end of its field. */
function sumOf(entries: readonly Entry[]): SessionSums {
  const sum = (field: (typeof SUMS)[number]) =>
    entries.reduce((total, entry) => Math.min(largest(TALLY_BITS[field]), total + entry[field]), 0);
  return { dose: sum('dose'), triggerWindows: sum('triggerWindows'), unratedWindows: sum('unratedWindows') };
}
