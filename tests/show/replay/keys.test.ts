import type { Key } from 'ink';
import { describe, expect, it } from 'vitest';
import { commandsOf, helpText } from '../../../src/show/replay/keys.js';
import { SPEEDS } from '../../../src/show/replay/player.js';

const NO_KEY = {} as Key;
const key = (...names: (keyof Key)[]): Key => Object.fromEntries(names.map((name) => [name, true])) as unknown as Key;

describe('commandsOf', () => {
  it('gives the digits the nine speeds, slowest first', () => {
    const speeds = [...'123456789'].flatMap((digit) => commandsOf(digit, NO_KEY));
    expect(speeds).toEqual(SPEEDS.map((speed) => ({ do: 'speed', speed })));
    expect(commandsOf('0', NO_KEY)).toEqual([]);
  });

  it('seeks a minute with an arrow, ten with shift or a page key', () => {
    expect(commandsOf('', key('leftArrow'))).toEqual([{ do: 'seek', byMs: -60_000 }]);
    expect(commandsOf('', key('rightArrow'))).toEqual([{ do: 'seek', byMs: 60_000 }]);
    expect(commandsOf('', key('rightArrow', 'shift'))).toEqual([{ do: 'seek', byMs: 600_000 }]);
    expect(commandsOf('', key('pageUp'))).toEqual([{ do: 'seek', byMs: -600_000 }]);
    expect(commandsOf('', key('pageDown'))).toEqual([{ do: 'seek', byMs: 600_000 }]);
    expect(commandsOf('', key('home'))).toEqual([{ do: 'start' }]);
    expect(commandsOf('', key('end'))).toEqual([{ do: 'end' }]);
  });

  it('takes keys that come in together one by one, and leaves the rest alone', () => {
    expect(commandsOf('nnp', NO_KEY).map((one) => (one === 'quit' ? one : one.do))).toEqual([
      'next alert',
      'next alert',
      'previous alert',
    ]);
    expect(commandsOf(' q', NO_KEY)).toEqual([{ do: 'play or pause' }, 'quit']);
    expect(commandsOf('xyz', NO_KEY)).toEqual([]);
    expect(commandsOf('n', key('ctrl'))).toEqual([]);
  });
});

describe('helpText', () => {
  it('always fits, and always says how to play, pause and quit', () => {
    for (let columns = 58; columns < 200; columns++) {
      expect(helpText(true, columns).length).toBeLessThanOrEqual(columns);
      expect(helpText(true, columns)).toMatch(/^space pause .* q quit$/);
      expect(helpText(false, columns)).toMatch(/^space play .* q quit$/);
    }
  });
});
