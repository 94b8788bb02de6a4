// A day that feeds on itself is refused, not run for ever.
import { expect, it } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { run, smallDay } from './small-day.js';

it('a day that orders more than any world can hold is refused', () => {
  const day = smallDay([{ atMs: 0, do: 'turn', tool: 'saw', detents: 1_000_000_000, everyMs: 1 }]);
  expect(() => Bench.open(day).run()).toThrow('more than 200000 entries are pending: something feeds on itself');
});

it('a day that takes more steps than any day can is refused', () => {
  const bench = Bench.open(smallDay([run(0, 'saw', 'Edda', 2000)]));
  bench.runTo(1000);
  // As if twenty million steps lay behind it; a copy of the bench has taken them too.
  Object.assign(bench, { taken: 20_000_000 });
  const fork = bench.fork();
  expect(() => bench.run()).toThrow('the day takes more than 20000000 steps');
  expect(() => fork.run()).toThrow('the day takes more than 20000000 steps');
});
