// What every output with an exposure or a magnitude says at its end.

/** The brief's cautions, one sentence each. */
export const CAUTIONS = [
  'Counterproof is no measuring instrument and proves no workplace safe.',
  'Below the action value there is still risk.',
  'Local law and its limit values rule.',
];
