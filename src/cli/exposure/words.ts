// A person's text, read from left to right: takes what matches at the present place, and says where it stopped making
// sense.

/** Where a text stops making sense, counted from 0, and what was expected there. */
export interface Misread {
  readonly at: number;
  readonly expected: string;
}

export class Words {
  /** The present place, counted from 0. */
  at = 0;

  constructor(readonly text: string) {}

  get ended(): boolean {
    return this.at >= this.text.length;
  }

  /** Takes what a sticky pattern finds at the present place, and the space after it; null leaves the place as it is. */
  take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (found !== null) {
      this.at += found[0].length;
      this.skipSpace();
    }
    return found;
  }

  skipSpace(): void {
    while (/\s/.test(this.text.charAt(this.at))) this.at++;
  }

  misread(expected: string, at = this.at): Misread {
    return { at, expected };
  }
}
