import { EventEmitter } from 'node:events';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Life } from '../../../src/show/replay/screen.js';
import { replayInTerminal } from '../../../src/show/replay/terminal.js';
import type { ShownDay } from '../../../src/show/shown-day.js';
import { HOUR, MadeDay, MINUTE } from '../../trace/made-day.js';
import { FakeTerminal } from './streams.js';

// Before ink is loaded: where it believes to be in CI, it draws the last frame only.
vi.hoisted(() => {
  for (const name of ['CI', 'CONTINUOUS_INTEGRATION']) process.env[name] = 'false';
});

const LEFT = '\x1b[?1049l\x1b[?25h';
const LEFT_KEY = '\x1b[D';
const RIGHT_KEY = '\x1b[C';
const SHIFT_RIGHT = '\x1b[1;2C';
const PAGE_UP = '\x1b[5~';
const END = '\x1b[F';

function theDay(): ShownDay {
  const day = new MadeDay({ saw: 150 }, ['Edda']).pair(MINUTE, 'saw', 'Edda').work(10 * MINUTE, 'saw', 'Edda', HOUR);
  return { title: 'A day at the lock', events: day.events(), notes: [] };
}

function started(terminal = new FakeTerminal(80, 24)) {
  let tick = (_elapsedMs: number) => {};
  let stopped = false;
  const ticker = (callback: (elapsedMs: number) => void) => {
    tick = callback;
    return () => {
      stopped = true;
    };
  };
  const life = Object.assign(new EventEmitter(), { pid: 1, kill: () => true });
  const ended = replayInTerminal(theDay(), {
    stdin: terminal.stdin,
    stdout: terminal.stdout,
    ticker,
    life: life as unknown as Life,
  });
  ended.catch(() => {});
  return { terminal, ended, life, pass: (ms: number) => tick(ms), isStopped: () => stopped };
}

describe('replayInTerminal', () => {
  const open: (() => Promise<void>)[] = [];
  const begun = async (terminal?: FakeTerminal) => {
    const one = started(terminal);
    open.push(() => one.terminal.press('q'));
    await one.terminal.settle();
    return one;
  };
  afterEach(async () => {
    for (const close of open.splice(0)) await close();
    vi.restoreAllMocks();
  });

  it('plays as time passes, pauses, and changes speed', async () => {
    const { terminal, pass } = await begun();
    expect(terminal.frame()).toContain('playing 300×');
    pass(1000);
    await terminal.settle();
    expect(terminal.frame()).toContain('▀▀▀ :00');
    expect(terminal.frame()).toMatch(/^ █▀█ ▀▀█ ▄ █▀█ █▀▀ /m);
    await terminal.press(' ');
    expect(terminal.frame()).toContain('paused 300×');
    const before = terminal.frame();
    pass(10_000);
    await terminal.settle();
    expect(terminal.frame()).toBe(before);
    await terminal.press('1');
    expect(terminal.frame()).toContain('paused 1×');
    await terminal.press('9');
    expect(terminal.frame()).toContain('paused 3600×');
  });

  it('seeks with arrows, page keys and end, forwards and backwards', async () => {
    const { terminal } = await begun();
    const seconds = async (keys: string) => {
      await terminal.press(keys);
      return terminal.frame().split('\n').slice(0, 3).join('\n');
    };
    await terminal.press(' ');
    const one = await seconds(RIGHT_KEY);
    const eleven = await seconds(SHIFT_RIGHT);
    expect(one).toMatch(/█▀█ ▄█ /);
    expect(eleven).toMatch(/▄█ {2}▄█ /);
    expect(await seconds(PAGE_UP)).toBe(one);
    expect(await seconds(LEFT_KEY)).not.toBe(one);
    expect(await seconds(END)).toContain('●');
    expect(terminal.frame()).toMatch(/exceeds the ELV/);
    await terminal.press('p');
    await terminal.press('p');
    expect(terminal.frame()).toMatch(/reaches the EAV/);
    await terminal.press('n');
    expect(terminal.frame()).toMatch(/exceeds the ELV/);
  });

  it('follows the terminal as its size changes, and never fills its last row', async () => {
    const { terminal, pass } = await begun();
    for (const [columns, rows] of [
      [160, 50],
      [100, 30],
      [60, 16],
    ] as const) {
      await terminal.resize(columns, rows);
      const lines = terminal.frame().trimEnd().split('\n');
      expect(lines.length).toBeLessThanOrEqual(rows - 1);
      expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(columns);
      expect(Math.max(...lines.map((line) => [...line].length))).toBeGreaterThan(columns - 8);
      // A screen that is cleared for every frame flickers.
      terminal.written.length = 0;
      for (let frame = 0; frame < 3; frame++) {
        pass(500);
        await terminal.settle();
      }
      expect(terminal.written.length).toBeGreaterThan(2);
      expect(terminal.written.join('')).not.toContain('\x1b[2J');
    }
  });

  it('forgets the measures of the frames it has drawn', async () => {
    const { terminal, pass } = await begun();
    // As React's development build notes over a hundred of them a frame.
    performance.measure('one component');
    pass(500);
    await terminal.settle();
    expect(performance.getEntriesByName('one component')).toEqual([]);
  });

  it('leaves the terminal as it was on q', async () => {
    const { terminal, ended, isStopped, life } = await begun();
    expect(terminal.rawMode).toBe(true);
    await terminal.press('q');
    await ended;
    expect(terminal.written.at(-1)).toBe(LEFT);
    expect(terminal.rawMode).toBe(false);
    expect(isStopped()).toBe(true);
    expect(life.eventNames()).toEqual([]);
  });

  it('leaves the terminal as it was when a signal ends it', async () => {
    const { terminal, ended, life, isStopped } = await begun();
    life.emit('SIGTERM', 'SIGTERM');
    await ended;
    expect(terminal.written.at(-1)).toBe(LEFT);
    expect(terminal.rawMode).toBe(false);
    expect(isStopped()).toBe(true);
  });

  it('leaves the terminal as it was when it fails, and says why', async () => {
    // React reports the fault to the console as well.
    vi.spyOn(console, 'error').mockImplementation(() => {});
    const terminal = new FakeTerminal(80, 24);
    const life = Object.assign(new EventEmitter(), { pid: 1, kill: () => true });
    const failing = replayInTerminal(theDay(), {
      stdin: terminal.stdin,
      stdout: terminal.stdout,
      ticker: () => {
        throw new Error('the clock is broken');
      },
      life: life as unknown as Life,
    });
    await expect(failing).rejects.toThrow('the clock is broken');
    expect(terminal.written.at(-1)).toBe(LEFT);
    expect(terminal.rawMode).toBe(false);
  });

  it('ends with the day where nobody can press a key', async () => {
    const { terminal, ended, pass } = await begun(new FakeTerminal(80, 24, false));
    pass(8 * HOUR);
    await ended;
    expect(terminal.written.at(-1)).toBe(LEFT);
  });
});
