// What can be wrong with a scenario file, as data: every problem has its place, and says what was expected instead.
import type { Place } from './place.js';

export type ProblemKind =
  /** The file itself: missing, a folder, too large, not text. */
  | 'file'
  /** Not the YAML that the language is written in. */
  | 'yaml'
  /** A word that is not known where it stands. */
  | 'unknown'
  /** Something that must be there and is not. */
  | 'missing'
  /** Something known, in the wrong company. */
  | 'unexpected'
  /** A value that cannot be read or lies out of its range. */
  | 'value'
  /** More than a scenario may hold. */
  | 'limit';

/** The line of the file that a problem is in, printable, and what to mark there; column counts from 1. */
export interface Excerpt {
  readonly text: string;
  readonly column: number;
  readonly width: number;
}

/** A word and the known ones of which one may have been meant. */
export interface Near {
  readonly word: string;
  readonly known: Iterable<string>;
}

export interface Problem {
  readonly kind: ProblemKind;
  readonly place: Place;
  /** What is wrong, in a few words: `unknown verb "wrok"`. */
  readonly message: string;
  /** What was expected; "" where the message says it all. */
  readonly expected: string;
  /** The known word that comes nearest, or null. */
  readonly nearest: string | null;
  /** null where the problem is the file as a whole. */
  readonly excerpt: Excerpt | null;
}
