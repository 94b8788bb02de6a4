import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { VirtualClock } from '../../../sim/kernel/clock.js';

type Callback = () => void;

function run(clock: VirtualClock<Callback>, toMs: number): void {
  clock.runTo(toMs, (callback) => callback());
}

describe('VirtualClock', () => {
  it('fires each deadline at its own time, then stands where it was moved to', () => {
    const clock = new VirtualClock<Callback>();
    const fired: [string, number][] = [];
    const note = (name: string) => () => fired.push([name, clock.nowMs]);
    clock.arm(300, note('c'));
    clock.arm(100, note('a'));
    clock.arm(100, note('b'));
    clock.arm(401, note('later'));
    run(clock, 400);
    expect(fired).toEqual([
      ['a', 100],
      ['b', 100],
      ['c', 300],
    ]);
    expect([clock.nowMs, clock.nextMs()]).toEqual([400, 401]);
  });

  it('walks a chain link by link, however far it is moved in one go', () => {
    fc.assert(
      fc.property(
        fc.array(fc.nat(500), { minLength: 1, maxLength: 20 }),
        fc.array(fc.nat(4000), { maxLength: 5 }),
        (delaysMs, stops) => {
          const chain = (clock: VirtualClock<Callback>) => {
            const fired: number[] = [];
            const link = (index: number) => {
              const delayMs = delaysMs[index];
              if (delayMs === undefined) return;
              clock.arm(delayMs, () => {
                fired.push(clock.nowMs);
                link(index + 1);
              });
            };
            link(0);
            return fired;
          };
          let sum = 0;
          const due = delaysMs.map((delayMs) => {
            sum += delayMs;
            return sum;
          });
          const atOnce = new VirtualClock<Callback>();
          const fired = chain(atOnce);
          run(atOnce, 20_000);
          expect(fired).toEqual(due);

          const inSteps = new VirtualClock<Callback>();
          const firedInSteps = chain(inSteps);
          for (const toMs of [...stops].sort((a, b) => a - b)) run(inSteps, toMs);
          run(inSteps, 20_000);
          expect(firedInSteps).toEqual(due);
        },
      ),
    );
  });

  it('fires what is armed for the present moment before it moves on, and what is cancelled never', () => {
    const clock = new VirtualClock<Callback>();
    const fired: string[] = [];
    const late = clock.arm(20, () => fired.push('cancelled'));
    clock.arm(10, () => {
      clock.arm(0, () => fired.push('at once'));
      clock.cancel(late);
    });
    clock.arm(11, () => fired.push('next'));
    run(clock, 30);
    expect(fired).toEqual(['at once', 'next']);
  });

  it('goes neither back nor past a deadline, and takes no delay from the past', () => {
    const clock = new VirtualClock<string>();
    clock.moveTo(100);
    expect(() => clock.moveTo(99)).toThrow('cannot go back');
    expect(() => clock.arm(-1, 'a')).toThrow('the past');
    clock.arm(10, 'a');
    expect(() => clock.moveTo(111)).toThrow('would be passed over');
    clock.moveTo(110);
    expect([clock.take(), clock.nowMs]).toEqual(['a', 110]);
  });

  it('refuses deadlines that arm each other without end', () => {
    const clock = new VirtualClock<Callback>();
    const again = () => void clock.arm(0, again);
    again();
    expect(() => run(clock, 1)).toThrow('without end');
  });

  it('goes on from a copy of its state', () => {
    const clock = new VirtualClock<string>();
    clock.arm(5, 'a');
    clock.arm(5, 'b');
    clock.take();
    const copy = new VirtualClock(structuredClone(clock.state));
    copy.arm(0, 'c');
    expect([copy.take(), copy.take(), copy.nextMs()]).toEqual(['b', 'c', Infinity]);
    expect([clock.take(), clock.nextMs()]).toEqual(['b', Infinity]);
  });
});
