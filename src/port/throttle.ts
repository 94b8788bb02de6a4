// How many sealed frames with a wrong tag a device looks at (TAL-7). A tag of 32 bits is guessed once in 4 294 967 296 tries;
// at this rate that is one forged frame in 136 years of trying without a pause.

const MAX_BAD_TAGS = 60;
const SPAN_MS = 60_000;

/** Wrong tags since a moment of the device's own clock. */
export interface BadTags {
  count: number;
  sinceMs: number;
}

export function noBadTags(): BadTags {
  return { count: 0, sinceMs: 0 };
}

export function noteBadTag(bad: BadTags, nowMs: number): void {
  if (nowMs - bad.sinceMs >= SPAN_MS) {
    bad.count = 0;
    bad.sinceMs = nowMs;
  }
  bad.count += 1;
}

/** Whether sealed frames are dropped unread until the minute is over. */
export function isThrottled(bad: Readonly<BadTags>, nowMs: number): boolean {
  return bad.count >= MAX_BAD_TAGS && nowMs - bad.sinceMs < SPAN_MS;
}
