// Bits of a tally's flags (TAL-1), of which the trace tells the number.

export const TALLY_FLAG = { running: 1, sealed: 2 } as const;
