// The comment of a frame in a capture: from whom to whom, what it is and says, and what became of it.
import { peek } from '../../link/frames.js';
import type { EventOf } from '../../trace/kinds.js';
import { frameContent, frameWord, lostWord } from '../words.js';
import type { Copy, SentFrame } from './sent-frames.js';

/** "breaker → Edda: tally, 16.0 points; heard" */
export function frameText({ sent, lost, copies }: SentFrame): string {
  const fate = lost === '' ? fateText(copies) : lostWord(lost);
  if (sent.kind === 'air.injected') return `attacker → ${sent.to}: ${injectedText(sent)}; ${fate}`;
  const content = frameContent(sent);
  return `${sent.by} → ${sent.to}: ${frameWord(sent)}${content === '' ? '' : `, ${content}`}; ${fate}`;
}

/** "replay of a tally, sequence 2": what an attacker's bytes say of themselves, which nobody vouches for. */
function injectedText(sent: EventOf<'air.injected'>): string {
  const outside = peek(Buffer.from(sent.bytes, 'hex'));
  if (sent.how === 'flood' || typeof outside === 'string') return frameWord(sent);
  const { frame, link, sequence } = outside;
  const words = INJECTED[sent.how]?.(frame) ?? `${sent.how}, ${frame}`;
  // Only a frame of a pairing has no link, and no sequence.
  return link === 0 || frame === 'accept' ? words : `${words}, sequence ${sequence}`;
}

const INJECTED: Readonly<Record<string, (frame: string) => string>> = {
  replay: (frame) => `replay of ${/^a/.test(frame) ? 'an' : 'a'} ${frame}`,
  alter: (frame) => `altered ${frame}`,
  forge: (frame) => `forged ${frame}`,
  middle: (frame) => `${frame} from the middle`,
};

/** Nothing arrives where the other has no power, or where the day ends first. */
function fateText(copies: readonly Copy[]): string {
  return copies.length === 0 ? 'not heard' : copies.map(copyText).join(', then ');
}

function copyText({ damaged, refused }: Copy): string {
  return `heard${damaged ? ' damaged' : ''}${refused === '' ? '' : ` and refused (${refused})`}`;
}
