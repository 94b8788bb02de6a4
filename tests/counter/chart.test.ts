// The counter's chart and its effects name the same things, and every event that the code sends is handled somewhere.
import { expect, test } from 'vitest';
import { COUNTER_DELAYS_MS, type CounterEvent, counterMachine } from '../../src/counter/chart.js';
import { effectsOf, guardsOf } from '../../src/counter/effects.js';
import type { Parts } from '../../src/counter/parts.js';
import { declaredIn, namesIn, timersIn } from '../rig/chart-names.js';
import { CounterRig } from '../rig/counter-rig.js';
import { Site } from '../rig/site.js';

/** Nothing is called: only names are read. */
const parts = {} as Parts;
const names = namesIn(counterMachine);

/** Every event that the code may send; the compiler holds this to the chart's own type. */
const EVENTS: Record<CounterEvent['type'], null> = {
  ACCEPT: null,
  ADVICE: null,
  CELL_CHECK: null,
  CELL_LOW: null,
  CLOSED: null,
  DELIVERED_ALL: null,
  ERASING: null,
  HELLO: null,
  HOLD: null,
  NONCE: null,
  OPENED: null,
  PUSH: null,
  READOUT: null,
  REFUSE: null,
  SEALED: null,
  SENSOR_FAULT: null,
  SENSOR_GOOD: null,
  STARTED: null,
  STOPPED: null,
  TOUCH: null,
  TURN: null,
};

test('every guard has a meaning, and every meaning a guard', () => {
  expect(Object.keys(guardsOf(parts)).sort()).toEqual(names.guards);
  expect(declaredIn(counterMachine).guards).toEqual(names.guards);
});

test('every action has a meaning, and every meaning an action', () => {
  expect(Object.keys(effectsOf(parts)).sort()).toEqual(names.actions);
  expect(declaredIn(counterMachine).actions).toEqual(names.actions);
});

test('every delay is used', () => {
  expect(timersIn(counterMachine)).toEqual(Object.keys(COUNTER_DELAYS_MS).sort());
});

test('every event that is sent is handled in some state, and none beside them', () => {
  expect(names.events).toEqual(Object.keys(EVENTS).sort());
});

test('at boot the state of every region is told', () => {
  const { states } = new CounterRig(new Site(), 1, 50);
  expect([...states.keys()].sort()).toEqual(Object.keys(counterMachine.states).sort());
});
