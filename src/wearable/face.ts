// What the wearable's display shows (ACC-3, MAG-6, PAI-1, TAL-6, WEA-2, WEA-3): a function of its state.
import { wholePoints } from '../exposure/dose.js';
import { REFUSE_REASONS } from '../link/messages.js';
import { cellLevel } from '../port/cell.js';
import type { Display } from '../port/port.js';
import type { Parts } from './parts.js';
import { shownShift } from './shifts.js';

const BLANK = -1;

/** Every screen that the wearable can show. */
export const WEARABLE_SCREENS: readonly string[] = [
  'ready',
  'points',
  'closed',
  'pairing',
  'digits',
  ...REFUSE_REASONS.map((reason) => `refused-${reason}`),
  /** It sleeps on a cell that is all but empty (CEL-1). */
  'asleep',
];

/** A display with its icons still as bits, so that an unchanged one is known at once. */
export interface Face {
  screen: string;
  value: number;
  icons: number;
}

/** In sorted order; bit i of Face.icons lights WEARABLE_ICONS[i]. */
export const WEARABLE_ICONS = [
  'cell',
  'incomplete',
  'journal',
  'level-action',
  'level-limit',
  'level-notice',
  'level-site',
  'long',
  'stale',
  'unrated',
] as const;

const BIT = Object.fromEntries(WEARABLE_ICONS.map((icon, index) => [icon, 1 << index])) as Record<string, number>;

/** pairing: the state of the pairing region. */
export function faceOf(parts: Parts, pairing: string, face: Face): void {
  const { state } = parts;
  const shift = shownShift(state);
  face.icons = state.asleep ? 0 : iconsOf(parts);
  face.value = BLANK;
  if (state.asleep) face.screen = 'asleep';
  else if (pairing === 'refusing') face.screen = `refused-${state.refusal}`;
  else if (pairing !== 'closed') {
    face.value = state.pairing?.digits ?? BLANK;
    face.screen = face.value === BLANK ? 'pairing' : 'digits';
  } else if (shift === undefined) face.screen = 'ready';
  else {
    face.screen = state.shiftOpen ? 'points' : 'closed';
    const points = wholePoints(shift.dose);
    // MAG-6: time without a magnitude is never shown as zero points.
    face.value = points === 0 && shift.unratedWindows > 0 ? BLANK : points;
  }
}

export function displayOf(face: Readonly<Face>): Display {
  const icons = WEARABLE_ICONS.filter((_, index) => (face.icons & (1 << index)) !== 0);
  return { screen: face.screen, value: face.value, second: BLANK, icons };
}

function iconsOf({ state, levels, journal }: Parts): number {
  const shift = shownShift(state);
  const passed = levels[state.passed - 1];
  return (
    (cellLevel(state.cellMv) < 2 ? BIT.cell! : 0) |
    ((shift?.incomplete ?? 0) > 0 ? BIT.incomplete! : 0) |
    (journal.failed() ? BIT.journal! : 0) |
    (passed === undefined ? 0 : BIT[`level-${passed.level}`]!) |
    (shift?.long === true ? BIT.long! : 0) |
    (state.links.some((link) => link.stale) ? BIT.stale! : 0) |
    ((shift?.unratedWindows ?? 0) > 0 ? BIT.unrated! : 0)
  );
}
