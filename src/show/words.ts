// The words in which levels, times and frames are told to a person; one place, so that every view says the same.
import { pointTenths } from '../exposure/points.js';
import type { LevelField } from '../trace/kinds.js';
import type { SentEvent } from '../trace/moment-air.js';
import type { Sums } from '../trace/moment-tool.js';

const MINUTE_MS = 60_000;
/** Trigger time is counted in windows. */
export const WINDOW_MS = 100;

const LEVEL_WORDS: Readonly<Record<string, string>> = {
  notice: 'notice level',
  action: 'EAV',
  site: 'site limit',
  limit: 'ELV',
};

const SHORT_LEVEL_WORDS: Readonly<Record<string, string>> = { ...LEVEL_WORDS, notice: 'notice', site: 'site' };

/** What must be said wherever exposure is shown, in a line of so many columns (52 at least). */
export function caution(columns: number): string {
  const fuller = [
    'For teaching and verification; no measuring instrument. Below the action value there is still risk.',
    'Teaches and verifies, measures nothing. Below the EAV there is still risk.',
  ];
  return fuller.find((text) => text.length <= columns) ?? 'Measures nothing. Below the EAV there is still risk.';
}

/** "EAV" for action, "ELV" for limit; a level nobody knows is called by its own name. */
export function levelWord(level: string): string {
  return LEVEL_WORDS[level] ?? level;
}

/** The same where room is scarce. */
export function shortLevelWord(level: string): string {
  return SHORT_LEVEL_WORDS[level] ?? level;
}

/** "reaches the EAV", or "exceeds" where reaching it is not enough. */
export function passesText(level: string, levels: readonly LevelField[]): string {
  const exceeds = levels.find((one) => one.level === level)?.compare === 'exceeded';
  return `${exceeds ? 'exceeds' : 'reaches'} the ${levelWord(level)}`;
}

/** Whole minutes, rounded down: "83 min", "<1 min". */
export function minutesText(ms: number): string {
  return ms < MINUTE_MS ? '<1 min' : `${Math.floor(ms / MINUTE_MS)} min`;
}

/** "12.0" for 120 tenths. */
export function tenthsText(tenths: number): string {
  return `${Math.floor(tenths / 10)}.${tenths % 10}`;
}

/** "1 point", "12 points"; also for a dash. */
export function pointsWord(count: string): string {
  return `${count} point${count === '1' ? '' : 's'}`;
}

/** "12.3 points", "60 min unrated" or both; time without a magnitude is never told as zero points (MAG-6). */
export function sumsText({ dose, unratedWindows }: Sums): string {
  const tenths = pointTenths(dose);
  const points = `${dose > 0 && tenths === 0 ? '<0.1' : tenthsText(tenths)} points`;
  if (unratedWindows === 0) return points;
  const unrated = `${minutesText(unratedWindows * WINDOW_MS)} unrated`;
  return dose === 0 ? unrated : `${points} and ${unrated}`;
}

const LOST_WORDS: Readonly<Record<string, string>> = {
  range: 'lost: out of reach',
  loss: 'lost in the air',
  intercepted: 'kept back by an attacker',
};

/** What stood between a frame and the one that it was meant for; reason as the bench calls it. */
export function lostWord(reason: string): string {
  return LOST_WORDS[reason] ?? `lost: ${reason}`;
}

const ATTACKERS_FRAMES: Readonly<Record<string, string>> = {
  replay: 'replayed frame',
  alter: 'altered frame',
  forge: 'forged frame',
  flood: 'nonsense',
  middle: 'frame in between',
};

/** What a frame is called. */
export function frameWord(sent: SentEvent): string {
  if (sent.kind === 'air.injected') return ATTACKERS_FRAMES[sent.how] ?? sent.how;
  return sent.kind === 'air.pairing' ? sent.frame : sent.kind.slice('air.'.length);
}

/** Who sent it; an attacker is on nobody's list. */
export function senderWord(sent: SentEvent): string {
  return sent.kind === 'air.injected' ? 'attacker' : sent.by;
}

/** What a frame says, in a few words; '' where it says nothing that a person would want to know. */
export function frameContent(sent: SentEvent): string {
  switch (sent.kind) {
    case 'air.tally':
      // MAG-6: time without a magnitude is never told as zero points.
      return sent.dose === 0 && sent.unratedWindows > 0
        ? `${minutesText(sent.unratedWindows * WINDOW_MS)} unrated`
        : `${tenthsText(pointTenths(sent.dose))} points`;
    case 'air.report':
      return sent.shortBursts > 0
        ? `${sent.shortBursts} short burst${sent.shortBursts === 1 ? '' : 's'}`
        : `${tenthsText(pointTenths(sent.unclaimedDose))} points unclaimed`;
    case 'air.ack':
      return sent.closed ? 'shift closed' : `${tenthsText(sent.leftTenths)} left`;
    case 'air.pairing':
    case 'air.injected':
      return '';
  }
}
