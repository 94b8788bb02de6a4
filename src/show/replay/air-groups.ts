// The frames of the last half minute or so, alike ones together, so that a lost tally is not swept away by all that went
// well: what went wrong first, then what was told, then the acknowledgements that arrived, and frames of an attacker.
import type { AirFrame } from '../../trace/moment-air.js';
import { frameWord } from '../words.js';

export interface AirGroup {
  /** The newest of them. */
  readonly frame: AirFrame;
  readonly count: number;
}

export function airGroups(frames: readonly AirFrame[]): readonly AirGroup[] {
  const groups = new Map<string, AirGroup>();
  for (const frame of frames) {
    const { sent, fate, reason } = frame;
    const alike = [frameWord(sent), sent.by, sent.to, fate, reason].join('\n');
    groups.set(alike, { frame, count: (groups.get(alike)?.count ?? 0) + 1 });
  }
  return [...groups.values()].sort((a, b) => rank(a.frame) - rank(b.frame) || b.frame.sent.n - a.frame.sent.n);
}

function rank({ sent, fate }: AirFrame): number {
  if (sent.kind === 'air.injected') return 2;
  if (fate === 'lost' || fate === 'refused') return 0;
  return sent.kind === 'air.ack' && fate === 'heard' ? 2 : 1;
}
