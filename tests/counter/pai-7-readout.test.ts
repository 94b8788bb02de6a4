// PAI-7: a readout makes room in a full store, and loses nothing wherever power fails in it. (The record: readout.test.ts.)
import { expect, test } from 'vitest';
import { readCounterRecord } from '../../src/counter/readout.js';
import { newCrew } from '../rig/crew.js';
import { pairUp } from '../rig/pair-up.js';

/** A counter whose sessions never reach their wearer. */
function withSessions(count: number) {
  const crew = newCrew();
  const { site, saw, edda } = crew;
  site.air = ({ message }) => (message.frame === 'tally' || message.frame === 'report' ? [] : [5]);
  for (let made = 0; made < count; made++) {
    pairUp(saw, edda);
    saw.work(200);
  }
  return crew;
}

function listed(record: Uint8Array | undefined): number[] {
  const read = readCounterRecord(record ?? Uint8Array.of());
  if (typeof read === 'string') throw new Error(read);
  return read.undelivered.map(({ session }) => session);
}

test('a full store has room again, oldest sessions first in the list', () => {
  const { site, saw, edda, bram } = withSessions(32);
  saw.touch(edda.id);
  expect(saw.display.screen).toBe('refused-full');
  site.runFor(4_000);
  saw.readout();
  expect(listed(saw.records[0])).toEqual(Array.from({ length: 31 }, (_, at) => at + 1));
  expect(saw.display.icons).not.toContain('full');
  pairUp(saw, bram);
  expect(saw.observe().session).toBe(33);
});

test('while it is being set, paired or asked to wait, it hands over nothing', () => {
  const { site, saw, edda } = withSessions(2);
  saw.hold();
  saw.readout();
  expect(saw.records).toEqual([]);
  site.runFor(40_000);
  saw.touch(edda.id);
  saw.readout();
  expect(saw.records).toEqual([]);
  site.runFor(40_000);
  saw.readout();
  expect(listed(saw.records[0])).toEqual([1]);
});

test('at whichever byte power fails in it, each session was handed over or still is', () => {
  const whole = withSessions(4).saw;
  const before = whole.flash.steps;
  whole.readout();
  const steps = whole.flash.steps - before;
  expect(steps).toBeGreaterThan(0);
  for (let at = 0; at < steps; at++) {
    const { saw } = withSessions(4);
    saw.flash.failAfter(at);
    saw.readout();
    expect(saw.isOn).toBe(false);
    saw.powerUp();
    saw.readout();
    const all = new Set(saw.records.flatMap((record) => listed(record)));
    expect([...all].sort()).toEqual([1, 2, 3]);
    expect(saw.observe().session).toBe(4);
  }
});
