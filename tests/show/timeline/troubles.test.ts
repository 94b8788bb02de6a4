import { describe, expect, it } from 'vitest';
import { bareText, troubleLines } from '../../../src/show/timeline/troubles.js';
import type { Fields, Kind } from '../../../src/trace/kinds.js';
import { Recorder } from '../../../src/trace/recorder.js';

/** What is told of one event by the saw. */
function text<K extends Kind>(kind: K, fields: Fields<K>): string | undefined {
  const recorder = new Recorder();
  recorder.add(7, 'saw', kind, 0, fields);
  const lines = troubleLines(recorder.events);
  for (const line of lines) expect(line).toMatchObject({ atMs: 7, who: 'saw' });
  return lines[0]?.text;
}

const AIR = {
  ...{
    delayFromMs: 2,
    delayToMs: 12,
    duplicateDen: 1,
    duplicateNum: 0,
    errorDen: 1,
    errorNum: 0,
    lossDen: 1,
    lossNum: 0,
  },
  worker: 'Edda',
};

describe('a trouble', () => {
  it('of power is told with what failed, and that it is back', () => {
    expect(text('fault.cut', { during: 'now' })).toBe('fault: its power fails');
    expect(text('fault.cut', { during: 'write' })).toBe('fault: its power fails within a write to its flash');
    expect(text('fault.cut', { during: 'erase' })).toBe('fault: its power fails within an erase of its flash');
    expect(text('fault.cut', { during: 'exchange' })).toBe('its cell is exchanged: no power meanwhile');
    expect(text('fault.cut', { during: 'brown-out' })).toBe('its cell is empty: no power');
    expect(text('fault.planned', { what: 'cut erase' })).toBe('fault: its power is to fail within the next erase');
    expect(text('fault.lifted', { what: 'power' })).toBe('has power again');
  });

  it('of cell, clock, flash and sensor is told with its size', () => {
    expect(text('fault.cell', { percent: 8 })).toBe('fault: its cell has 8 % left');
    expect(text('fault.clock', { ppm: 400, driftPpm: 0 })).toBe('fault: its clock is 400 ppm fast');
    expect(text('fault.clock', { ppm: -20_000, driftPpm: 20 })).toBe(
      'fault: its clock is 2 % slow and gains 20 ppm an hour',
    );
    expect(text('fault.clock', { ppm: 0, driftPpm: -3 })).toBe('fault: its clock is right and loses 3 ppm an hour');
    expect(text('fault.page', { page: 3 })).toBe('fault: page 3 of its flash goes bad');
    expect(text('fault.sensor', { fault: 'frozen' })).toBe('fault: its sensor is frozen');
    expect(text('fault.lifted', { what: 'clock' })).toBe('fault over: its clock is right again');
  });

  it('of the air, and of those who attack, is told with whom it concerns', () => {
    expect(text('fault.air', AIR)).toBe('fault: the air to Edda delays by 2 to 12 ms');
    expect(
      text('fault.air', { ...AIR, lossNum: 1, duplicateNum: 1, duplicateDen: 10, errorNum: 1, errorDen: 20 }),
    ).toBe('fault: the air to Edda loses every frame, doubles 1 of 10, changes bits in 1 of 20, delays by 2 to 12 ms');
    expect(text('fault.air', { ...AIR, lossNum: 1, lossDen: 2 })).toContain('loses 1 of 2 frames,');
    expect(text('fault.lifted', { what: 'air Edda of the lock' })).toBe(
      'fault over: the air to Edda of the lock is clear',
    );
    const attacks = ['replay', 'alter', 'forge', 'flood', 'middle'].map((how) =>
      text('fault.attack', { everyMs: 1, how, worker: 'Edda' }),
    );
    expect(attacks).toEqual([
      'fault: somebody sends old frames again between it and Edda',
      'fault: somebody sends altered frames between it and Edda',
      'fault: somebody sends forged frames between it and Edda',
      'fault: somebody sends nonsense between it and Edda',
      'fault: somebody stands in the middle of pairings between it and Edda',
    ]);
    expect(text('fault.lifted', { what: 'attack Edda' })).toBe('fault over: the attack between it and Edda');
  });

  it('that a device shows is told when it begins to, and when it wakes', () => {
    const recorder = new Recorder();
    const shows = (screen: string, ...icons: readonly string[]) =>
      recorder.add(recorder.events.length, 'saw', 'shown.display', 0, { icons, screen, second: -1, value: -1 });
    shows('ready');
    shows('ready', 'cell');
    shows('setting', 'cell');
    shows('asleep');
    shows('ready', 'cell', 'journal');
    shows('ready', 'cell');
    shows('dark');
    shows('asleep');
    shows('dark');
    shows('ready', 'running');
    expect(troubleLines(recorder.events).map(({ atMs, text: told }) => `${atMs} ${told}`)).toEqual([
      '1 says that its cell is low',
      '3 sleeps: its cell is too low',
      '4 is awake again',
      '7 sleeps: its cell is too low',
    ]);
  });

  it('is nothing of what goes well', () => {
    expect(text('hand.nothing', { reason: 'digits differ', verb: 'pair' })).toBe(
      '"pair" comes to nothing: digits differ',
    );
    expect(text('hand.stop', { tool: 'saw' })).toBeUndefined();
    expect(text('shown.display', { icons: ['running'], screen: 'ready', second: 3, value: 40 })).toBeUndefined();
    expect(text('shown.display', { icons: ['journal'], screen: 'ready', second: 3, value: 40 })).toBe(
      'says that its journal has failed',
    );
  });
});

it('under a heading, faults are told without the word', () => {
  expect(bareText('fault: its power fails')).toBe('its power fails');
  expect(bareText('fault over: its clock is right again')).toBe('its clock is right again');
  expect(bareText('has power again')).toBe('has power again');
});
