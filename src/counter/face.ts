// What the counter's display shows (CEL-1, KEP-4, MAG-2, MAG-3, MAG-6, PAI-1, PAI-4, PAI-5, TAL-5): a function of its state.
import { ALERT_LEVELS, REFUSE_REASONS } from '../link/messages.js';
import { cellLevel } from '../port/cell.js';
import type { Display } from '../port/port.js';
import { isSaturated } from './meter.js';
import type { Parts } from './parts.js';
import { storeIsFull } from './sessions.js';
import { pointsInTenMinutes } from './setting.js';
import type { CounterState } from './state.js';

const BLANK = -1;

/** Every screen that the counter can show. */
export const COUNTER_SCREENS: readonly string[] = [
  'ready',
  'setting',
  'review',
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
  second: number;
  icons: number;
}

/** In sorted order; bit i of Face.icons lights COUNTER_ICONS[i]. */
export const COUNTER_ICONS = [
  'cell',
  'full',
  'journal',
  'level-action',
  'level-limit',
  'level-notice',
  'level-site',
  'running',
  'saturated',
  'sensor',
  'unclaimed',
  'unrated',
] as const;

const BIT = Object.fromEntries(COUNTER_ICONS.map((icon, index) => [icon, 1 << index])) as Record<string, number>;
const LEVEL_BITS = ALERT_LEVELS.map((level) => BIT[`level-${level}`] ?? 0);

/** panel: the state of the panel region. */
export function faceOf(parts: Parts, panel: string, face: Face): void {
  const { state } = parts;
  face.value = BLANK;
  face.second = BLANK;
  face.icons = state.asleep ? 0 : iconsOf(parts);
  if (state.asleep) face.screen = 'asleep';
  else if (panel === 'resting') {
    face.screen = 'ready';
    face.value = orBlank(state.rate.tenths);
    face.second = minutesLeft(state);
  } else if (panel === 'setting.adjusting') {
    face.screen = 'setting';
    face.value = orBlank(state.setting?.tenths ?? 0);
  } else if (panel === 'setting.reviewing') {
    const tenths = state.setting?.tenths ?? 0;
    face.screen = 'review';
    face.value = tenths;
    face.second = pointsInTenMinutes(tenths);
  } else if (panel === 'refusing') {
    face.screen = `refused-${state.refusal}`;
  } else {
    const digits = state.pairing?.digits ?? BLANK;
    face.screen = digits === BLANK ? 'pairing' : 'digits';
    face.value = digits;
  }
}

export function displayOf(face: Readonly<Face>): Display {
  const { screen, value, second } = face;
  return { screen, value, second, icons: COUNTER_ICONS.filter((_, index) => (face.icons & (1 << index)) !== 0) };
}

/**
 * Whole minutes on this tool, at its magnitude, until the wearer's next level: floor(left points / (a²/30 a minute)); 0 past
 * the last level.
 */
function minutesLeft(state: CounterState): number {
  const { tenths } = state.rate;
  if (state.advice === null || tenths === 0) return BLANK;
  return Math.floor((state.advice.leftTenths * 300) / (tenths * tenths));
}

function iconsOf({ state, journal }: Parts): number {
  const sums = state.open?.sums ?? state.unclaimed;
  return (
    (cellLevel(state.cellMv) < 2 ? BIT.cell! : 0) |
    (storeIsFull(state) ? BIT.full! : 0) |
    (journal.failed() ? BIT.journal! : 0) |
    LEVEL_BITS[state.advice?.level ?? 0]! |
    (state.detector.running ? BIT.running! : 0) |
    (isSaturated(sums) ? BIT.saturated! : 0) |
    (state.sensorWatch.faulty ? BIT.sensor! : 0) |
    (state.unclaimed.triggerWindows > 0 ? BIT.unclaimed! : 0) |
    (state.rate.tenths === 0 || sums.unratedWindows > 0 ? BIT.unrated! : 0)
  );
}

function orBlank(tenths: number): number {
  return tenths === 0 ? BLANK : tenths;
}
