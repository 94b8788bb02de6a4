// TAL-7: wrong tags are limited to 60 a minute. Seen from outside: nothing is throttled that is not the 61st within a minute,
// and however minutes are laid, no more than two minutes' worth of wrong tags is looked at within one.
const A_MINUTE = 60;
const MINUTE_MS = 60_000;

export class TagWatch {
  private wrong: number[] = [];

  /** The device has started anew. */
  restart(): void {
    this.wrong = [];
  }

  /** What a device said to a frame; says what is wrong with it, or null. */
  note(nowMs: number, reason: string): string | null {
    if (reason !== 'tag' && reason !== 'throttled') return null;
    this.wrong = this.wrong.filter((atMs) => nowMs - atMs < MINUTE_MS);
    const { length } = this.wrong;
    if (reason === 'throttled') return length >= A_MINUTE ? null : `throttled after ${length} wrong tags`;
    this.wrong.push(nowMs);
    return length < 2 * A_MINUTE ? null : `${length + 1} wrong tags within a minute, and no end`;
  }
}
