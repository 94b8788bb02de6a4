// The clock under real XState actors, which on a clock of their own would fire only the first of a chain when it jumps.
import { describe, expect, it } from 'vitest';
import { type AnyStateMachine, createActor, createMachine, raise, sendTo, setup } from 'xstate';
import { actorClock } from '../../../sim/kernel/actor-clock.js';
import { VirtualClock } from '../../../sim/kernel/clock.js';

type Callback = () => void;

function newActor(machine: AnyStateMachine) {
  const clock = new VirtualClock<Callback>();
  const actor = createActor(machine, { clock: actorClock(clock) } as object);
  const entered: [string, number][] = [];
  actor.subscribe((snapshot: { value: unknown }) => entered.push([String(snapshot.value), clock.nowMs]));
  actor.start();
  entered.length = 0;
  return { clock, actor, entered, runTo: (toMs: number) => clock.runTo(toMs, (callback) => callback()) };
}

const CHAIN = createMachine({
  id: 'chain',
  initial: 'a',
  states: {
    a: { after: { 1000: 'b' } },
    b: { after: { 500: 'c' } },
    c: { after: { 1: 'd' } },
    d: { after: { 60000: 'e' } },
    e: {},
  },
});

describe('actorClock', () => {
  it('fires chained deadlines each at its own time when the clock jumps over several', () => {
    const { entered, runTo, clock } = newActor(CHAIN);
    runTo(10_000);
    expect(entered).toEqual([
      ['b', 1000],
      ['c', 1500],
      ['d', 1501],
    ]);
    runTo(100_000);
    expect(entered.at(-1)).toEqual(['e', 61_501]);
    expect(clock.nextMs()).toBe(Infinity);
  });

  it('cancels the deadline of a state that is left, and arms it anew where it is entered again', () => {
    const { actor, entered, runTo } = newActor(
      createMachine({
        id: 'watch',
        initial: 'fresh',
        states: {
          fresh: {
            after: { 90000: 'faded' },
            on: { HEARD: { target: 'fresh', reenter: true }, LEFT: 'gone' },
          },
          faded: {},
          gone: {},
        },
      }),
    );
    runTo(89_999);
    actor.send({ type: 'HEARD' });
    runTo(179_998);
    expect(entered).toEqual([['fresh', 89_999]]);
    actor.send({ type: 'LEFT' });
    runTo(1_000_000);
    expect(entered.at(-1)).toEqual(['gone', 179_998]);
  });

  it('serves delayed events between actors, too', () => {
    const heard: number[] = [];
    const clock = new VirtualClock<Callback>();
    const machine = setup({
      actions: { note: () => void heard.push(clock.nowMs) },
    }).createMachine({
      id: 'echo',
      entry: sendTo(({ self }) => self, { type: 'PING' }, { delay: 250, id: 'ping' }),
      on: {
        PING: { actions: ['note', raise({ type: 'PONG' }, { delay: 250, id: 'pong' })] },
        PONG: { actions: 'note' },
      },
    });
    createActor(machine, { clock: actorClock(clock) } as object).start();
    clock.runTo(5000, (callback) => callback());
    expect(heard).toEqual([250, 500]);
  });

  it('takes it calmly where nothing was armed that is to be cleared', () => {
    const clock = new VirtualClock<Callback>();
    actorClock(clock).clearTimeout(undefined);
    expect(clock.nextMs()).toBe(Infinity);
  });
});
