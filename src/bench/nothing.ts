// Why an event of the day came to nothing: some cannot happen at all, some are tasks that a person gave up half-way.

export const NOTHING_REASONS = [
  'already running',
  'on the road',
  'hands full',
  'out of reach',
  'ring in use',
  'away already',
  'here already',
  'no power',
  'refused',
  'interrupted',
  'no answer',
  'digits differ',
  'given up',
] as const;

export type NothingReason = (typeof NOTHING_REASONS)[number];
