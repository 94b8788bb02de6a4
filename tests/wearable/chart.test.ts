// The wearable's chart and its effects name the same things, and every event that the code sends is handled somewhere.
import { expect, test } from 'vitest';
import { WEARABLE_DELAYS_MS, type WearableEvent, wearableMachine } from '../../src/wearable/chart.js';
import { effectsOf, guardsOf } from '../../src/wearable/effects.js';
import type { Parts } from '../../src/wearable/parts.js';
import { declaredIn, namesIn, timersIn } from '../rig/chart-names.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

/** Nothing is called: only names are read. */
const parts = {} as Parts;
const names = namesIn(wearableMachine);

/** Every event that the code may send; the compiler holds this to the chart's own type. */
const EVENTS: Record<WearableEvent['type'], null> = {
  ACCEPT: null,
  ACCEPT_AGAIN: null,
  ANSWER: null,
  BROKEN: null,
  CELL_CHECK: null,
  CELL_LOW: null,
  CHECK: null,
  CLOSE: null,
  ERASING: null,
  LEVEL: null,
  LONG: null,
  NEW_SHIFT: null,
  PAIRED: null,
  RAN: null,
  READOUT: null,
  REFUSE: null,
  RESTS: null,
  RESUMED: null,
  REVEAL: null,
  RUNS: null,
  TAP: null,
  TOUCH: null,
};

test('every guard has a meaning, and every meaning a guard', () => {
  expect(Object.keys(guardsOf(parts)).sort()).toEqual(names.guards);
  expect(declaredIn(wearableMachine).guards).toEqual(names.guards);
});

test('every action has a meaning, and every meaning an action', () => {
  expect(Object.keys(effectsOf(parts)).sort()).toEqual(names.actions);
  expect(declaredIn(wearableMachine).actions).toEqual(names.actions);
});

test('every delay is used', () => {
  expect(timersIn(wearableMachine)).toEqual(Object.keys(WEARABLE_DELAYS_MS).sort());
});

test('every event that is sent is handled in some state, and none beside them', () => {
  expect(names.events).toEqual(Object.keys(EVENTS).sort());
});

test('at boot the state of every region is told', () => {
  const { states } = new WearableRig(new Site(), 11);
  expect([...states.keys()].sort()).toEqual(Object.keys(wearableMachine.states).sort());
});
