// A wearable that keeps as many sessions as it can, or nearly: 256, all of counter 1, sealed, with 1 u each.
import { Site } from './site.js';
import { type ToldSession, toldSession } from './told-session.js';
import { WearableRig } from './wearable-rig.js';

const MAX_SESSIONS = 256;

/** From session number `open` on they are of the open shift, those before it of one that is over; 0: all are of the open one. */
export function withSessions(
  open: number,
  count = MAX_SESSIONS,
): { edda: WearableRig; sessions: readonly ToldSession[] } {
  const edda = new WearableRig(new Site(), 99);
  const sessions = Array.from({ length: count }, (_, index) => {
    if (index + 1 === open) edda.close();
    const told = toldSession(edda, 1, 1000 + index, index + 1);
    told.tell({ dose: 1, flags: ['sealed'] });
    return told;
  });
  return { edda, sessions };
}
