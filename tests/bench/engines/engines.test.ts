// What both engines owe a device: the same order of things, errors that reach the caller, no event ignored in silence.
import { describe, expect, it } from 'vitest';
import { actorEngine } from '../../../src/bench/engines/actors.js';
import { tableEngine } from '../../../src/bench/engines/table.js';
import type { Engine, EngineMaker } from '../../../src/port/engine.js';
import { chartOf, machineOf } from './charts.js';

const ENGINES: readonly (readonly [string, EngineMaker])[] = [
  ['actors', actorEngine],
  ['table', tableEngine],
];

const TURNSTILE = {
  idle: { on: { COIN: { target: 'open', actions: 'unlock' }, PUSH: { actions: 'rattle' } } },
  open: {
    entry: 'light',
    exit: 'dark',
    after: { 5000: { target: 'idle', actions: 'lock' } },
    on: { COIN: { target: 'open', reenter: true }, PUSH: 'idle' },
  },
};
const NAMES = ['unlock', 'rattle', 'light', 'dark', 'lock'];

describe.each(ENGINES)('on %s', (_, engineOf) => {
  it('effects, states and deadlines come in the order that the chart says', () => {
    const { chart, log } = chartOf(machineOf(TURNSTILE), NAMES);
    const engine = engineOf(chart);
    engine.start();
    for (const type of ['PUSH', 'COIN']) engine.send({ type });
    expect(engine.state('part')).toBe('open');
    expect(engine.nextMs()).toBe(5000);
    engine.runTo(3000);
    engine.send({ type: 'COIN' });
    engine.runTo(7999);
    expect(engine.state('part')).toBe('open');
    engine.runTo(8000);
    expect(engine.nextMs()).toBe(Infinity);
    expect(log).toEqual([
      'part=idle',
      'rattle(PUSH)',
      'unlock(COIN)',
      'light(COIN)',
      'part=open',
      'dark(COIN)',
      'light(COIN)',
      'dark(xstate.after.5000.test.part.open)',
      'lock(xstate.after.5000.test.part.open)',
      'part=idle',
    ]);
  });

  it('an event sent from within an effect is handled after the present one, with all its effects', () => {
    const states = {
      idle: { on: { GO: { target: 'gone', actions: ['call', 'after'] } } },
      gone: { entry: 'arrive', on: { CALLED: { actions: 'answer' } } },
    };
    let engine: Engine;
    const call = () => engine.send({ type: 'CALLED' });
    const { chart, log } = chartOf(machineOf(states), ['after', 'arrive', 'answer'], { call });
    engine = engineOf(chart);
    engine.start();
    engine.send({ type: 'GO' });
    expect(log.slice(1)).toEqual(['call(GO)', 'after(GO)', 'arrive(GO)', 'part=gone', 'answer(CALLED)']);
  });

  it('an event sent from within the first effect of all is, too', () => {
    let engine: Engine;
    const call = () => engine.send({ type: 'CALLED' });
    const states = { idle: { entry: ['call', 'after'], on: { CALLED: { actions: 'answer' } } } };
    const { chart, log } = chartOf(machineOf(states), ['after', 'answer'], { call });
    engine = engineOf(chart);
    engine.start();
    expect(log.filter((line) => !line.startsWith('part'))).toEqual([
      'call(xstate.init)',
      'after(xstate.init)',
      'answer(CALLED)',
    ]);
  });

  it('guards decide by the event and by data beside the chart', () => {
    let open = false;
    const states = {
      idle: {
        on: {
          GO: [
            { guard: 'open', target: 'in' },
            { guard: 'large', target: 'over' },
          ],
        },
      },
      in: {},
      over: {},
    };
    const guards = { open: () => open, large: (event: { type: string }) => Number(Object(event).size) > 3 };
    const { chart } = chartOf(machineOf(states), [], {}, guards);
    const engine = engineOf(chart);
    engine.start();
    engine.send({ type: 'GO', size: 3 });
    expect(engine.state('part')).toBe('idle');
    engine.send({ type: 'GO', size: 4 });
    expect(engine.state('part')).toBe('over');
    const other = engineOf(chart);
    open = true;
    other.start();
    other.send({ type: 'GO', size: 4 });
    expect(other.state('part')).toBe('in');
  });

  it('an error thrown in an effect reaches the caller, and the engine takes nothing more', () => {
    const boom = () => {
      throw new Error('boom');
    };
    const states = { idle: { on: { GO: { actions: 'boom' }, COIN: { actions: 'rattle' } } } };
    const { chart, log } = chartOf(machineOf(states), ['rattle'], { boom });
    const engine = engineOf(chart);
    engine.start();
    expect(() => engine.send({ type: 'GO' })).toThrow('boom');
    expect(() => engine.send({ type: 'COIN' })).toThrow();
    expect(log).not.toContain('rattle(COIN)');
  });

  it('so does one thrown at the start, at a deadline, and in an event that an effect has sent', () => {
    const boom = () => {
      throw new Error('boom');
    };
    const atStart = engineOf(chartOf(machineOf({ idle: { entry: 'boom' } }), [], { boom }).chart);
    expect(() => atStart.start()).toThrow('boom');

    const late = machineOf({ idle: { after: { 100: { target: 'late', actions: 'boom' } } }, late: {} });
    const atDeadline = engineOf(chartOf(late, [], { boom }).chart);
    atDeadline.start();
    atDeadline.runTo(99);
    expect(() => atDeadline.runTo(100)).toThrow('boom');

    let engine: Engine;
    const call = () => engine.send({ type: 'CALLED' });
    const states = { idle: { on: { GO: { actions: 'call' }, CALLED: { actions: 'boom' } } } };
    engine = engineOf(chartOf(machineOf(states), [], { call, boom }).chart);
    engine.start();
    expect(() => engine.send({ type: 'GO' })).toThrow('boom');
  });

  it('unknown events are refused, sent or posted', () => {
    const engine = engineOf(chartOf(machineOf(TURNSTILE), NAMES).chart);
    engine.start();
    expect(() => engine.send({ type: 'PUHS' })).toThrow('test knows no event PUHS');
    engine.send({ type: 'COIN' });
    expect(engine.state('part')).toBe('open');
    engine.post(10, { type: 'PUHS' });
    expect(() => engine.runTo(10)).toThrow('test knows no event PUHS');
  });

  it('a known event that the present state has no use for changes nothing', () => {
    const { chart, log } = chartOf(machineOf({ idle: { on: { GO: 'gone' } }, gone: {} }));
    const engine = engineOf(chart);
    engine.start();
    engine.send({ type: 'GO' });
    engine.send({ type: 'GO' });
    expect(log).toEqual(['part=idle', 'part=gone']);
  });

  it('posted events come at their time, in the order of their posting', () => {
    const { chart, log } = chartOf(machineOf(TURNSTILE), NAMES);
    const engine = engineOf(chart);
    engine.start();
    engine.post(700, { type: 'COIN' });
    engine.post(200, { type: 'PUSH' });
    engine.post(700, { type: 'PUSH' });
    engine.runTo(699);
    expect([log, engine.nowMs]).toEqual([['part=idle', 'rattle(PUSH)'], 699]);
    engine.moveTo(700);
    engine.runTo(700);
    expect(engine.state('part')).toBe('idle');
    expect(log.slice(-2)).toEqual(['dark(PUSH)', 'part=idle']);
  });

  it('events that set each other off without end are refused', () => {
    let engine: Engine;
    const call = () => engine.send({ type: 'GO' });
    engine = engineOf(chartOf(machineOf({ idle: { on: { GO: { actions: 'call' } } } }), [], { call }).chart);
    engine.start();
    expect(() => engine.send({ type: 'GO' })).toThrow('without end');
  });

  it('so are deadlines that arm each other without time going on', () => {
    const states = { idle: { after: { 0: 'back' } }, back: { after: { 0: 'idle' } } };
    const engine = engineOf(chartOf(machineOf(states)).chart);
    engine.start();
    expect(() => engine.runTo(1)).toThrow('without end');
  });

  it('time goes neither back nor past a deadline', () => {
    const engine = engineOf(chartOf(machineOf(TURNSTILE), NAMES).chart);
    engine.start();
    engine.send({ type: 'COIN' });
    expect(() => engine.moveTo(5001)).toThrow('passed over');
    engine.moveTo(400);
    expect(() => engine.moveTo(399)).toThrow('cannot go back');
  });
});

describe('a copy of an engine', () => {
  it('goes on from there by itself, on the table', () => {
    const { chart, log } = chartOf(machineOf(TURNSTILE), NAMES);
    const engine = tableEngine(chart);
    engine.start();
    engine.send({ type: 'COIN' });
    engine.post(1000, { type: 'COIN' });
    const { chart: otherChart, log: otherLog } = chartOf(machineOf(TURNSTILE), NAMES);
    const copy = engine.fork({ ...otherChart, machine: chart.machine });
    engine.send({ type: 'PUSH' });
    expect([engine.state('part'), copy.state('part')]).toEqual(['idle', 'open']);
    copy.runTo(5999);
    expect(copy.state('part')).toBe('open');
    copy.runTo(6000);
    expect(copy.state('part')).toBe('idle');
    expect(otherLog.at(0)).toBe('dark(COIN)');
    engine.runTo(6000);
    // The original was closed by the push; the coin posted before the copy was made opens it until 6000.
    expect(log.slice(-3)).toEqual([
      'dark(xstate.after.5000.test.part.open)',
      'lock(xstate.after.5000.test.part.open)',
      'part=idle',
    ]);
  });

  it('is refused by actors, and in the middle of an event', () => {
    const { chart } = chartOf(machineOf(TURNSTILE), NAMES);
    expect(() => actorEngine(chart).fork(chart)).toThrow('cannot be copied');
    let engine: Engine;
    const copy = () => void engine.fork(chart);
    engine = tableEngine(chartOf(machineOf({ idle: { on: { GO: { actions: 'copy' } } } }), [], { copy }).chart);
    engine.start();
    expect(() => engine.send({ type: 'GO' })).toThrow('in the middle of an event');
  });
});
