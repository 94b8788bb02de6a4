// What a wearable must have in its ledger and its shifts (WEA-1, WEA-5), against what it says.
import { largest, TALLY_BITS } from '../../../src/link/layout.js';
import type { LedgerEntry, SessionSums } from '../../../src/port/inner.js';
import type { WearableRig } from '../../rig/wearable-rig.js';
import { type Entry, SUMS } from './wearable-rules.js';

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
