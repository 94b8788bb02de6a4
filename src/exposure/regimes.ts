// Exposure regimes as data: named sets of limit values, and whether a value counts once reached or only when exceeded.
// The texts of the laws were not at hand, so clauses are cited from memory. Local law rules, not this table.
import { doseOfPoints, requireDose } from './dose.js';

/** "reached": the level counts from the very value on. "exceeded": only above it. */
export type Compare = 'reached' | 'exceeded';

export interface RegimeLevel {
  readonly level: 'action' | 'limit';
  /** Points of a day: 100 is 2.5 m/s² A(8), 400 is 5 m/s² A(8). */
  readonly points: number;
  readonly compare: Compare;
  /** Where the regime's text says so. */
  readonly clause: string;
}

/** A most trigger time a day that holds beside the levels. */
export interface DailyCap {
  readonly ms: number;
  readonly clause: string;
}

export interface Regime {
  /** What a scenario or a command line calls it. */
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** Which edition of the source the data follow. */
  readonly version: string;
  /** Rising, at most one of each name. */
  readonly levels: readonly RegimeLevel[];
  readonly dailyCap: DailyCap | null;
}

const REGIMES: readonly Regime[] = [
  {
    id: 'eu-2002-44',
    title: 'European Union, Directive 2002/44/EC',
    source: 'Directive 2002/44/EC, Articles 3 and 5 (clauses from memory)',
    version: '25 June 2002, OJ L 177 of 6 July 2002',
    levels: [
      { level: 'action', points: 100, compare: 'exceeded', clause: 'Articles 3(1)(b) and 5(2)' },
      { level: 'limit', points: 400, compare: 'exceeded', clause: 'Articles 3(1)(a) and 5(3)' },
    ],
    dailyCap: null,
  },
  {
    id: 'gb-2005',
    title: 'Great Britain, Control of Vibration at Work Regulations 2005',
    source: 'Control of Vibration at Work Regulations 2005, regulations 4 and 6 (clauses from memory)',
    version: 'SI 2005/1093',
    levels: [
      { level: 'action', points: 100, compare: 'reached', clause: 'regulations 4(1)(b) and 6(2)' },
      { level: 'limit', points: 400, compare: 'exceeded', clause: 'regulations 4(1)(a) and 6(4)' },
    ],
    dailyCap: null,
  },
  {
    id: 'jp-0710-2',
    title: 'Japan, notice 0710-2 of 10 July 2009',
    source:
      'Ministry of Health, Labour and Welfare, notice 0710-2 (action value from memory, cap from secondary sources)',
    version: '10 July 2009',
    levels: [
      { level: 'action', points: 100, compare: 'exceeded', clause: 'daily action value of 2.5 m/s² A(8)' },
      { level: 'limit', points: 400, compare: 'exceeded', clause: 'daily limit value of 5 m/s² A(8), T = 200 / a² h' },
    ],
    dailyCap: { ms: 7_200_000, clause: 'at most 2 h a day while 200 / a² gives more' },
  },
];

/** Every known regime's id, in the order in which they are listed to a person. */
export const REGIME_IDS: readonly string[] = REGIMES.map((regime) => regime.id);

/** The regime of that id, or undefined where there is none. */
export function regimeById(id: string): Regime | undefined {
  return REGIMES.find((regime) => regime.id === id);
}

/** Points of a regime's level by its name. Throws RangeError where the regime has no such level. */
export function levelPoints(regime: Regime, name: RegimeLevel['level']): number {
  const found = regime.levels.find(({ level }) => level === name);
  if (found === undefined) {
    throw new RangeError(`The regime ${regime.id} has no ${name} value.`);
  }
  return found.points;
}

/**
 * Whether an exact dose in u has passed a level in whole points (ACC-3): 99.99 points have not passed 100.
 * Throws RangeError where it is no dose, or where points is no whole number of at least 0.
 */
export function hasPassed(dose: number, points: number, compare: Compare): boolean {
  requireDose(dose);
  const level = doseOfPoints(points);
  return compare === 'reached' ? dose >= level : dose > level;
}
