// What the fields of a message may say, beyond what their widths allow: nothing else is sealed, written or believed (TAL-4).
import { MAX_MAGNITUDE_TENTHS } from '../exposure/dose.js';
import { ALERT_LEVELS, TALLY_FLAGS, type Tally } from './messages.js';
import type { ClearMessage, SealedMessage } from './pairing-messages.js';

/** MAG-1; 0 says that none is committed. */
export const LEAST_MAGNITUDE_TENTHS = 5;
const KNOWN_FLAGS = Object.values(TALLY_FLAGS).reduce((all, flag) => all | flag, 0);

/** Sequence 0 is an accept's and nobody else's, so that no two frames of a link and direction share a nonce. */
export function soundHeader(frame: SealedMessage['frame'], link: number, sequence: number): boolean {
  return link !== 0 && (frame === 'accept') === (sequence === 0);
}

export function soundSealed(message: SealedMessage): boolean {
  switch (message.frame) {
    case 'tally':
      return soundTally(message);
    case 'report':
      return true;
    case 'ack':
      return message.level < ALERT_LEVELS.length;
    case 'accept':
      return message.counter !== 0 && message.wearable !== 0;
  }
}

function soundTally({ magnitudeTenths, triggerWindows, unratedWindows, flags }: Tally): boolean {
  const rated = magnitudeTenths >= LEAST_MAGNITUDE_TENTHS && magnitudeTenths <= MAX_MAGNITUDE_TENTHS;
  return (rated || magnitudeTenths === 0) && unratedWindows <= triggerWindows && (flags & ~KNOWN_FLAGS) === 0;
}

export function soundClear(message: ClearMessage): boolean {
  if (message.counter === 0 || message.wearable === 0) return false;
  return message.frame !== 'answer' || (message.link !== 0 && message.session !== 0);
}
