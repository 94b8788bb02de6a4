// The table runs only what it runs as XState would; the rest is refused, most of it before the first event.
import { describe, expect, it } from 'vitest';
import { assign, createMachine, enqueueActions, fromCallback, raise } from 'xstate';
import { tableEngine } from '../../../src/bench/engines/table.js';
import { TransitionTable } from '../../../src/bench/engines/transition-table.js';
import { counterMachine } from '../../../src/counter/chart.js';
import { wearableMachine } from '../../../src/wearable/chart.js';
import { chartOf, machineOf } from './charts.js';

const GO_ON = { idle: { on: { GO: 'gone' } }, gone: {} };
const going = (transition: object) => ({ ...GO_ON, idle: { on: { GO: { target: 'gone', ...transition } } } });
const invoked = { invoke: { src: fromCallback(() => {}) } };

const REFUSED: readonly (readonly [what: string, states: object, why: string])[] = [
  ['an eventless transition', { ...GO_ON, gone: { always: 'idle' } }, 'test.part.gone: eventless transitions'],
  ['a guard without a name', going({ guard: () => true }), 'test.part.idle: a guard of GO has no name'],
  ['a guard with parameters', going({ guard: { type: 'g', params: { a: 1 } } }), 'a guard of GO has no name'],
  ['an action without a name', going({ actions: () => {} }), 'test.part.idle: an action of GO has no name'],
  ['an action with parameters', going({ actions: { type: 'e', params: { a: 1 } } }), 'an action of GO has no name'],
  ['an assignment to the context', going({ actions: assign({ a: 1 }) }), 'an action of GO has no name'],
  ['actions put together at the time', going({ actions: enqueueActions(() => {}) }), 'an action of GO has no name'],
  ['an unnamed action at an entry', { ...GO_ON, gone: { entry: () => {} } }, 'test.part.gone: an action of entry'],
  ['an unnamed action at an exit', { ...GO_ON, gone: { exit: () => {} } }, 'test.part.gone: an action of exit'],
  ['an invoked actor', { ...GO_ON, gone: invoked }, 'test.part.gone: an invoked actor'],
  [
    'a transition for any event',
    { ...GO_ON, gone: { on: { '*': 'idle' } } },
    'test.part.gone: a transition for any event',
  ],
  [
    'a history state',
    { ...GO_ON, gone: { initial: 'a', states: { a: {}, h: { type: 'history' } } } },
    'a history state',
  ],
  ['a final state', { ...GO_ON, gone: { type: 'final' } }, 'test.part.gone: a final state'],
  ['a deadline that is worked out at the time', { idle: { after: { later: 'gone' } }, gone: {} }, 'xstate.raise'],
];

describe('the transition table', () => {
  it.each(REFUSED)('refuses %s when it is made', (_, states, why) => {
    expect(() => new TransitionTable(machineOf(states))).toThrow(why);
  });

  it('refuses an immediate raise when the day first meets it', () => {
    const states = { idle: { on: { GO: { actions: raise({ type: 'ON' }) }, ON: 'gone' } }, gone: {} };
    const engine = tableEngine(chartOf(machineOf(states)).chart);
    engine.start();
    expect(() => engine.send({ type: 'GO' })).toThrow('the table cannot run the action xstate.raise');
  });

  it('refuses more guards on one event than a cell can hold', () => {
    const guarded = (count: number) =>
      Array.from({ length: count }, (_, index) => ({ guard: `g${index}`, target: 'gone' }));
    expect(() => new TransitionTable(machineOf({ ...GO_ON, idle: { on: { GO: guarded(8) } } }))).not.toThrow();
    expect(() => new TransitionTable(machineOf({ ...GO_ON, idle: { on: { GO: guarded(9) } } }))).toThrow('more than 8');
  });

  it('refuses a chart without regions', () => {
    const machine = createMachine({ id: 'flat', initial: 'a', states: { a: {} } });
    expect(() => new TransitionTable(machine)).toThrow('parallel regions');
  });

  it('misses no guard and no effect of a chart', () => {
    const guarded = tableEngine(chartOf(machineOf(going({ guard: 'open' }))).chart);
    guarded.start();
    expect(() => guarded.send({ type: 'GO' })).toThrow('test has no guard open');
    const acting = tableEngine(chartOf(machineOf(going({ actions: 'ring' }))).chart);
    acting.start();
    expect(() => acting.send({ type: 'GO' })).toThrow('test has no effect ring');
  });

  it('takes the charts of both devices', () => {
    for (const machine of [counterMachine, wearableMachine]) {
      expect(new TransitionTable(machine).initial.next.regions.size).toBe(Object.keys(machine.root.states).length);
    }
  });

  it('works a row out once and finds it again', () => {
    const table = new TransitionTable(machineOf(going({ guard: 'open' })));
    const idle = table.initial.next;
    const cell = table.cell(idle, 'GO');
    const [stayed, went] = [table.fill(idle, 'GO', cell, 0), table.fill(idle, 'GO', cell, 1)];
    expect([stayed.next, stayed.changes]).toEqual([idle, []]);
    expect([went.next.name, went.changes]).toEqual(['gone', [['part', 'gone']]]);
    expect(table.cell(idle, 'GO').rows).toEqual([stayed, went]);
  });
});
