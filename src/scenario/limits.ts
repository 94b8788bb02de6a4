// How much one scenario may hold, so that no file, however written, keeps the reader busy for long.

/** Steps of a day, expectations, and notes, each. */
export const MAX_ITEMS = 20_000;
/** Events of one day, after bursts have been written out. */
export const MAX_EVENTS = 100_000;
/** Events of all days of a file: of every row, as written and with every what-if; counted before a what-if is made. */
export const MAX_EVENTS_IN_ALL = 200_000;
/** Frames of all attackers of one day. */
export const MAX_ATTACK_FRAMES = 100_000;
/** Of one day: vibration that is made sample by sample, of tools that run so and of carried ones. */
export const MAX_SAMPLED_MS = 8 * 3_600_000;
export const MAX_TOOLS = 64;
export const MAX_WORKERS = 64;
export const MAX_ROWS = 200;
export const MAX_WHAT_IFS = 20;
/** Of one what-if. */
export const MAX_CHANGES = 10;
/** Steps, expectations and notes of one row, times the rows. */
export const MAX_ITEMS_IN_ALL = 50_000;
