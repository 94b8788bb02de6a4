// A canary is a fault that is put into the devices to see whether an invariant notices: something that a firmware engineer
// could get wrong, that no compiler finds, and that leaves ordinary days mostly right.

/** Which random days a canary is looked for on: see days.ts. */
export const DAY_KINDS = ['usual', 'long', 'worn', 'dense', 'rich'] as const;
export type DayKind = (typeof DAY_KINDS)[number];

export interface Canary {
  /** What was got wrong, as a sentence. */
  readonly name: string;
  /** Requirements of the brief that are broken by it. */
  readonly breaks: readonly string[];
  /** Source file, from the root of the repository. */
  readonly file: string;
  /** Exact old text, found once in the file, and what stands there instead. */
  readonly replace: readonly (readonly [old: string, wrong: string])[];
  /** The days on which it shows; usual ones unless something else is said. */
  readonly days?: DayKind;
  /** Real keys are needed for it to matter. */
  readonly keys?: boolean;
  /** A day that shows it, cheaply found by matrix.ts; null where no invariant has found it yet. */
  readonly seed: number | null;
}

/** The text with the fault in it. Throws where an old text is not found exactly once, so that no canary rots unseen. */
export function withFault(text: string, { name, file, replace }: Canary): string {
  let faulty = text;
  for (const [old, wrong] of replace) {
    const parts = faulty.split(old);
    if (parts.length !== 2) {
      throw new Error(`the canary "${name}" finds its text ${parts.length - 1} times in ${file}: ${old}`);
    }
    faulty = parts.join(wrong);
  }
  if (faulty === text) throw new Error(`the canary "${name}" changes nothing`);
  return faulty;
}
