// What a device shows, without the event around it.
import type { Display } from '../port/port.js';
import type { EventOf } from './kinds.js';

export function displayOf({ icons, screen, second, value }: EventOf<'shown.display'>): Display {
  return { icons, screen, second, value };
}
