// How long a property test over days may take, its shrinking included. One that fails is cut short in time to tell of the
// smallest day it has found so far; one that does not come to its end on a slow machine fails, too, and says why.
export const PATIENCE_MS = 120_000;
export const PATIENT = { interruptAfterTimeLimit: 100_000, markInterruptAsFailure: true } as const;
