// The comment of a frame in a capture: from whom to whom, what it is and says, and what became of it.
import { frameContent, frameWord, lostWord } from '../words.js';
import type { Copy, SentFrame } from './sent-frames.js';

/** "breaker → Edda: tally, 16.0 points; heard" */
export function frameText({ sent, lost, copies }: SentFrame): string {
  const fate = lost === '' ? fateText(copies) : lostWord(lost);
  if (sent.kind === 'air.injected') return `attacker → ${sent.to}: ${sent.how}; ${fate}`;
  const content = frameContent(sent);
  return `${sent.by} → ${sent.to}: ${frameWord(sent)}${content === '' ? '' : `, ${content}`}; ${fate}`;
}

/** Nothing arrives where the other has no power, or where the day ends first. */
function fateText(copies: readonly Copy[]): string {
  return copies.length === 0 ? 'not heard' : copies.map(copyText).join(', then ');
}

function copyText({ damaged, refused }: Copy): string {
  return `heard${damaged ? ' damaged' : ''}${refused === '' ? '' : ` and refused (${refused})`}`;
}
