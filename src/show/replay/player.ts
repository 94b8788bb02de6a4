// The player's state: where in the day it stands, how fast it goes. Time comes in from outside, tick by tick.
import type { Cursor } from '../../trace/cursor.js';

export interface Player {
  /** Ms since the start of the day. */
  readonly atMs: number;
  /** Times as fast as the day. */
  readonly speed: number;
  readonly playing: boolean;
  /** The chart has the room of the tools as well. */
  readonly chartAlone: boolean;
}

/** What the digits 1 to 9 stand for. */
export const SPEEDS = [1, 10, 30, 60, 120, 300, 600, 1800, 3600] as const;

export type Command =
  | { readonly do: 'tick'; readonly elapsedMs: number }
  | { readonly do: 'seek'; readonly byMs: number }
  | { readonly do: 'speed'; readonly speed: number }
  | { readonly do: 'play or pause' | 'next alert' | 'previous alert' | 'start' | 'end' | 'chart alone' };

/** Plays from the start at a pace at which a class can follow a day of 9 h in about two minutes. */
export const AT_START: Player = { atMs: 0, speed: 300, playing: true, chartAlone: false };

/** The player after a command. The day is untilMs long; alerts are found with the cursor. */
export function played(player: Player, command: Command, cursor: Cursor, untilMs: number): Player {
  const goTo = (atMs: number): Player => ({ ...player, atMs: Math.max(0, Math.min(untilMs, Math.round(atMs))) });
  switch (command.do) {
    case 'tick': {
      if (!player.playing) return player;
      const moved = goTo(player.atMs + command.elapsedMs * player.speed);
      return { ...moved, playing: moved.atMs < untilMs };
    }
    case 'seek':
      return goTo(player.atMs + command.byMs);
    case 'speed':
      return { ...player, speed: command.speed };
    case 'play or pause':
      // Played to its end, the day starts over.
      if (!player.playing && player.atMs >= untilMs) return { ...player, atMs: 0, playing: true };
      return { ...player, playing: !player.playing };
    case 'next alert':
      return goTo(cursor.nextAlert(player.atMs)?.at ?? player.atMs);
    case 'previous alert':
      return goTo(cursor.previousAlert(player.atMs)?.at ?? player.atMs);
    case 'start':
      return goTo(0);
    case 'end':
      return { ...goTo(untilMs), playing: false };
    case 'chart alone':
      return { ...player, chartAlone: !player.chartAlone };
  }
}
