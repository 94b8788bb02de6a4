import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import { enterScreen, type Life } from '../../../src/show/replay/screen.js';

const LEFT = '\x1b[?1049l\x1b[?25h';

function made() {
  const written: string[] = [];
  const did: string[] = [];
  const events = new EventEmitter();
  const life = Object.assign(events, {
    pid: 4711,
    kill: (pid: number, signal: string) => did.push(`${pid} ${signal}`),
  });
  const stdout = { write: (text: string) => written.push(text) } as unknown as NodeJS.WritableStream;
  const leave = enterScreen(stdout, life as unknown as Life, () => did.push('stop'));
  return { written, did, events, leave };
}

describe('enterScreen', () => {
  it('enters the alternate screen and leaves it once, with the cursor in view', () => {
    const { written, leave, events } = made();
    expect(written.join('')).toContain('\x1b[?1049h');
    leave();
    leave();
    expect(written.slice(1)).toEqual([LEFT]);
    expect(events.eventNames()).toEqual([]);
  });

  it.each(['exit', 'uncaughtExceptionMonitor'])('leaves it at %s, before anybody reports anything', (event) => {
    const { written, events } = made();
    events.emit(event);
    expect(written.slice(1)).toEqual([LEFT]);
  });

  it('stops, leaves and lets a signal do what it always does', () => {
    const { written, did, events } = made();
    events.emit('SIGTERM', 'SIGTERM');
    expect(written.slice(1)).toEqual([LEFT]);
    expect(did).toEqual(['stop', '4711 SIGTERM']);
    expect(events.listenerCount('SIGTERM')).toBe(0);
  });
});
