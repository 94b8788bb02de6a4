// The names of all invariants, so that one which no canary needs is seen. Read from a watcher that has seen nothing.
import { Invariants } from '../../src/judge/invariants/watcher.js';

interface Watching {
  readonly watched: readonly { readonly invariant: { readonly name: string } }[];
}

export const INVARIANT_NAMES: readonly string[] = (new Invariants() as unknown as Watching).watched.map(
  ({ invariant }) => invariant.name,
);
