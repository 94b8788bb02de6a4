// Tries canaries on random days, and holds what each of them breaks against what the sources break as they are.
import type { Canary, DayKind } from './canary.js';
import type { Finding, Look } from './finding.js';
import { run } from './run.js';
import { Workshop } from './workshop.js';

/** Processes at a time. */
const AT_ONCE = 2;

/** What one canary broke that the sources as they are do not. */
export interface Row {
  readonly canary: string;
  readonly breaks: readonly string[];
  readonly days: DayKind;
  /** Days that were tried; of them, those of which the trace is another than without the fault, and looks another from outside. */
  readonly tried: number;
  readonly changed: number;
  readonly shown: number;
  /** Seed of the first day on which anything was broken, null where nothing was. */
  readonly seed: number | null;
  readonly caught: readonly Caught[];
  /** The first thing that was thrown, or ''. */
  readonly thrown: string;
}

export interface Caught {
  readonly invariant: string;
  /** Days on which it noticed the canary, and the seed of the first. */
  readonly days: number;
  readonly seed: number;
}

export interface Matrix {
  readonly rows: readonly Row[];
  /** What the sources as they are break: a false alarm, or a fault that nobody planted. By kind of days, and how often. */
  readonly noise: readonly { readonly days: DayKind; readonly keys: boolean; readonly caught: readonly Caught[] }[];
}

export async function matrixOf(
  canaries: readonly Canary[],
  look: Pick<Look, 'count' | 'seconds'>,
  progress: (row: Row) => void,
): Promise<Matrix> {
  const workshop = new Workshop();
  try {
    // Before anything is run: a text that has changed is an error of the canary.
    for (const canary of canaries) workshop.faulty(canary);
    const grounds = new Map<string, readonly Finding[]>();
    for (const { days = 'usual', keys = false } of canaries) {
      const ground = groundOf(days, keys);
      if (grounds.has(ground)) continue;
      grounds.set(ground, await run(workshop, null, { ...look, days, keys, fromSeed: 1 }));
    }
    const rows = await shared(canaries, async (canary) => {
      const { days = 'usual', keys = false } = canary;
      const findings = await run(workshop, canary, { ...look, days, keys, fromSeed: 1 });
      const row = rowOf(canary, findings, grounds.get(groundOf(days, keys))!);
      progress(row);
      return row;
    });
    const noise = [...grounds].map(([ground, findings]) => {
      const [days, keys] = JSON.parse(ground) as [DayKind, boolean];
      return { days, keys, caught: caughtIn(findings) };
    });
    return { rows, noise };
  } finally {
    workshop.close();
  }
}

function groundOf(days: DayKind, keys: boolean): string {
  return JSON.stringify([days, keys]);
}

/**
 * What was broken on a day counts only where the sources as they are were tried on the day too. An invariant that they break on
 * any day says nothing: a fault leads the day elsewhere, and its false alarms come up elsewhere.
 */
export function rowOf(canary: Canary, findings: readonly Finding[], ground: readonly Finding[]): Row {
  const noisy = new Set(caughtIn(ground).map(({ invariant }) => invariant));
  const known = new Map(ground.map((finding) => [finding.seed, finding]));
  const counted = findings
    .filter(({ seed }) => known.has(seed))
    .map((finding) => ({ ...finding, broken: finding.broken.filter((invariant) => !noisy.has(invariant)) }));
  const differing = (what: 'whole' | 'outward') =>
    counted.filter((finding) => finding[what] !== known.get(finding.seed)?.[what]).length;
  return {
    canary: canary.name,
    breaks: canary.breaks,
    days: canary.days ?? 'usual',
    tried: counted.length,
    changed: differing('whole'),
    shown: differing('outward'),
    seed: counted.find(({ broken }) => broken.length > 0)?.seed ?? null,
    caught: caughtIn(counted),
    thrown: counted.find(({ thrown }) => thrown !== '')?.thrown ?? '',
  };
}

function caughtIn(findings: readonly Finding[]): Caught[] {
  const caught = new Map<string, { days: number; seed: number }>();
  for (const { seed, broken } of findings) {
    for (const invariant of broken) {
      const before = caught.get(invariant);
      caught.set(invariant, { days: (before?.days ?? 0) + 1, seed: before?.seed ?? seed });
    }
  }
  return [...caught].map(([invariant, found]) => ({ invariant, ...found })).sort((a, b) => b.days - a.days);
}

/** Does something with each of them, AT_ONCE at a time; results are in the order of what was given. */
export async function shared<T, R>(given: readonly T[], act: (one: T) => Promise<R>): Promise<R[]> {
  const results = new Array<R>(given.length);
  let next = 0;
  const worker = async () => {
    while (next < given.length) {
      const index = next++;
      results[index] = await act(given[index]!);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  return results;
}
