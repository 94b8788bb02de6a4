import { describe, expect, it } from 'vitest';
import { AT_START, type Command, type Player, played, SPEEDS } from '../../../src/show/replay/player.js';
import { Cursor } from '../../../src/trace/cursor.js';
import { HOUR, MadeDay, MINUTE } from '../../trace/made-day.js';

const day = new MadeDay({ saw: 60 }, ['Edda']);
for (const [minutes, level] of [
  [10, 'notice'],
  [20, 'action'],
] as const) {
  day.step(minutes * MINUTE, (recorder, at) => recorder.add(at, 'Edda', 'shown.alert', 0, { again: 0, level }));
}
const cursor = new Cursor(day.events());
const playing = (player: Partial<Player>, ...commands: Command[]) =>
  commands.reduce((one, command) => played(one, command, cursor, HOUR), { ...AT_START, ...player });

describe('played', () => {
  it('moves by the time that passed, times the speed', () => {
    expect(playing({ speed: 60 }, { do: 'tick', elapsedMs: 100 }).atMs).toBe(6000);
    expect(playing({ speed: 1 }, { do: 'tick', elapsedMs: 99.7 }).atMs).toBe(100);
    expect(playing({ playing: false }, { do: 'tick', elapsedMs: 100 }).atMs).toBe(0);
  });

  it('stops at the end, and plays from the start when it is played again', () => {
    const ended = playing({ atMs: HOUR - 10 }, { do: 'tick', elapsedMs: 100 });
    expect(ended).toMatchObject({ atMs: HOUR, playing: false });
    expect(playing(ended, { do: 'play or pause' })).toMatchObject({ atMs: 0, playing: true });
  });

  it('seeks both ways within the day', () => {
    expect(playing({ atMs: 5 * MINUTE }, { do: 'seek', byMs: -MINUTE }).atMs).toBe(4 * MINUTE);
    expect(playing({ atMs: 5 * MINUTE }, { do: 'seek', byMs: -10 * MINUTE }).atMs).toBe(0);
    expect(playing({ atMs: 55 * MINUTE }, { do: 'seek', byMs: 10 * MINUTE }).atMs).toBe(HOUR);
    expect(playing({ atMs: 5 * MINUTE }, { do: 'end' })).toMatchObject({ atMs: HOUR, playing: false });
    expect(playing({ atMs: 5 * MINUTE }, { do: 'start' })).toMatchObject({ atMs: 0, playing: true });
  });

  it('goes from alert to alert, and stays where there is none further', () => {
    const next: Command = { do: 'next alert' };
    const previous: Command = { do: 'previous alert' };
    expect(playing({}, next).atMs).toBe(10 * MINUTE);
    expect(playing({}, next, next).atMs).toBe(20 * MINUTE);
    expect(playing({}, next, next, next).atMs).toBe(20 * MINUTE);
    expect(playing({}, next, next, previous).atMs).toBe(10 * MINUTE);
    expect(playing({ atMs: MINUTE }, previous).atMs).toBe(MINUTE);
  });

  it('pauses, changes speed, and shows the chart alone', () => {
    expect(playing({}, { do: 'play or pause' }).playing).toBe(false);
    expect(playing({}, { do: 'play or pause' }, { do: 'play or pause' }).playing).toBe(true);
    expect(playing({}, { do: 'speed', speed: 3600 }).speed).toBe(3600);
    expect(playing({}, { do: 'chart alone' }).chartAlone).toBe(true);
  });

  it('has nine speeds from 1× to 3600×', () => {
    expect(SPEEDS).toHaveLength(9);
    expect([SPEEDS[0], SPEEDS[8]]).toEqual([1, 3600]);
    expect([...SPEEDS].sort((a, b) => a - b)).toEqual([...SPEEDS]);
  });
});
