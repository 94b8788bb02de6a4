// The journal's note to itself, a record like others: which pages are retired, and which are worn. See Pages.
import { keyOf } from './layout.js';
import type { Pages } from './pages.js';

/** Type 255 is the journal's own. */
export const NOTE_KEY = keyOf(255, 0);

/** A bit for each page: retired, worn. */
export function writeNote({ retired, worn }: Pages): Uint8Array {
  return Uint8Array.of(retired >> 8, retired & 0xff, worn >> 8, worn & 0xff);
}

export function readNote(value: Uint8Array | undefined): Pick<Pages, 'retired' | 'worn'> {
  const [a = 0, b = 0, c = 0, d = 0] = value ?? [];
  return { retired: (a << 8) | b, worn: (c << 8) | d };
}
