// The names of all invariants, so that one which no canary needs is seen.
import { INVARIANTS } from '../../src/judge/invariants/list.js';

export const INVARIANT_NAMES: readonly string[] = INVARIANTS.map(({ name }) => name);
