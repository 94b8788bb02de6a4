// Which key does what.
import type { Key } from 'ink';
import { type Command, SPEEDS } from './player.js';

const MINUTE_MS = 60_000;
const TEN_MINUTES_MS = 10 * MINUTE_MS;

const LETTERS: Readonly<Record<string, Command>> = {
  ' ': { do: 'play or pause' },
  n: { do: 'next alert' },
  p: { do: 'previous alert' },
};

/** The line that is always in view: as much of it as the columns allow. */
export function helpText(playing: boolean, columns: number): string {
  const space = `space ${playing ? 'pause' : 'play'}`;
  const short = `${space}  ←→ 1 min  1–9  n p  tab  q quit`;
  const usual = `${space}  ←→ 1 min  pgup pgdn 10  1–9 speed  n p alert  tab chart  q quit`;
  const whole = [
    space,
    '←→ a minute',
    'shift or page ten',
    '1–9 speed',
    'n p next, previous alert',
    'home end',
    'tab chart',
    'q quit',
  ].join('   ');
  return [whole, usual].find((text) => text.length <= columns) ?? short;
}

/** The command of a key that is no letter, if it has one. */
function namedKey(key: Key): Command | undefined {
  const stepMs = key.shift ? TEN_MINUTES_MS : MINUTE_MS;
  if (key.leftArrow) return { do: 'seek', byMs: -stepMs };
  if (key.rightArrow) return { do: 'seek', byMs: stepMs };
  if (key.pageUp) return { do: 'seek', byMs: -TEN_MINUTES_MS };
  if (key.pageDown) return { do: 'seek', byMs: TEN_MINUTES_MS };
  if (key.home) return { do: 'start' };
  if (key.end) return { do: 'end' };
  if (key.tab) return { do: 'chart alone' };
  return undefined;
}

/** The commands of one piece of input, in order: keys that repeat fast come in together. "quit" ends the replay. */
export function commandsOf(input: string, key: Key): readonly (Command | 'quit')[] {
  const named = namedKey(key);
  if (named !== undefined) return [named];
  if (key.ctrl || key.meta) return [];
  return [...input].flatMap((letter): (Command | 'quit')[] => {
    if (letter === 'q') return ['quit'];
    const speed = SPEEDS['123456789'.indexOf(letter)];
    if (speed !== undefined) return [{ do: 'speed', speed }];
    const command = LETTERS[letter];
    return command === undefined ? [] : [command];
  });
}
