// What a device shows, without the event around it; and whether it is awake to show anything.
import type { Display } from '../port/port.js';
import type { EventOf } from './kinds.js';

export type { Display };

export function displayOf({ icons, screen, second, value }: EventOf<'shown.display'>): Display {
  return { icons, screen, second, value };
}

/** A device without power is dark, and one on a poor cell sleeps (CEL-1): whatever else is known of it is not live then. */
export function isLive(display: Display | null): boolean {
  return display?.screen !== 'dark' && display?.screen !== 'asleep';
}
