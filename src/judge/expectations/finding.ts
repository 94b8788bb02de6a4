// What weighing one expectation comes to, before it is put into a verdict.

export interface Finding {
  readonly held: boolean;
  readonly expected: string;
  readonly seen: string;
  /** The moment that decided it, and the event behind it; 0 for none. */
  readonly atMs: number;
  readonly n: number;
  readonly devices: readonly string[];
}

/** What is being weighed, and over which time, for a finding in words. */
export interface Subject {
  readonly expected: string;
  readonly devices: readonly string[];
}

export function finding(subject: Subject, held: boolean, seen: string, atMs: number, n: number): Finding {
  return { held, expected: subject.expected, seen, atMs, n, devices: subject.devices };
}

/** An expectation that could not fail whatever the devices do proves nothing, so it does not hold. */
export function vacuous(subject: Subject, why: string, atMs: number): Finding {
  return finding(subject, false, `${why}, so nothing was checked`, atMs, 0);
}
