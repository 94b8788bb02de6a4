import { describe, expect, it } from 'vitest';
import { eventText } from '../../src/trace/event-text.js';
import { Recorder } from '../../src/trace/recorder.js';

const SEVEN = 7 * 3_600_000;

function only(add: (recorder: Recorder) => void): string {
  const recorder = new Recorder();
  add(recorder);
  return eventText(recorder.events.at(-1)!, SEVEN);
}

describe('the text of an event', () => {
  it('names number, time of day, whose it is, kind, fields and cause', () => {
    const text = only((recorder) => {
      const n = recorder.add(1000, 'Edda', 'hand.leave', 0, { who: ['Edda', 'saw'] });
      recorder.add(720_300, 'saw', 'fault.cut', n, { during: 'write' });
    });
    expect(text).toBe('#2 07:12:00.300 saw fault.cut during=write (by #1)');
  });

  it('tells of bytes how they begin and how many they are', () => {
    const sent = (bytes: string) =>
      only((recorder) => recorder.add(0, 'bench', 'air.injected', 0, { bytes, how: 'flood', to: 'saw' }));
    expect(sent('')).toBe('#1 07:00:00 bench air.injected bytes= how=flood to=saw');
    expect(sent('a1b2c3d4e5f60718')).toContain(' bytes=a1b2c3d4e5f60718 ');
    expect(sent('a1b2c3d4e5f6071829')).toContain(' bytes=a1b2c3d4e5f60718…(9 bytes) ');
  });
});
