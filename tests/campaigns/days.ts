// npm run days -- [SORT [FROM [COUNT]]]: random days with faults, of the seeds from FROM on, under all invariants and with keys.
// SORT is faulty, worn (a tool runs all day, and pages are erased) or middle (somebody in the middle of each pairing). Of each
// day on which something breaks the shortest one that breaks the same is written beside, as a scenario file.
import { writeFileSync } from 'node:fs';
import { DAY_SORTS, type DaySort } from '../../src/prove/days/day.js';
import { brokenOn, shortestFailure } from '../../src/prove/failure.js';
import { dayOfSeed } from '../../src/prove/shrink.js';

const SAY_EVERY = 100;
const [sort = 'faulty', from = 1, count = 1000] = asked(process.argv.slice(2));
const days = DAY_SORTS[sort];
const options = { keys: true };
const started = process.hrtime.bigint();

let broken = 0;
for (let seed = from; seed < from + count; seed++) {
  if (brokenOn(dayOfSeed(days, seed), options) !== null) {
    broken += 1;
    const { what, scenario } = shortestFailure(days, seed, options);
    const file = `${sort}-day-${seed}.yaml`;
    writeFileSync(file, scenario);
    process.stdout.write(`seed ${seed}: ${what}\n  counterproof check ${file}\n`);
  }
  if ((seed - from + 1) % SAY_EVERY === 0) process.stderr.write(`${seed - from + 1} days\n`);
}
const seconds = Number(process.hrtime.bigint() - started) / 1e9;
process.stdout.write(
  `${count} ${sort} days, ${broken} on which something broke; ${(count / seconds).toFixed(1)} days/s\n`,
);
process.exitCode = broken === 0 ? 0 : 1;

function asked([sort, ...numbers]: readonly string[]): readonly [
  DaySort?,
  (number | undefined)?,
  (number | undefined)?,
] {
  if (sort === undefined) return [];
  const [from, count] = numbers.map(Number);
  const isRight =
    sort in DAY_SORTS && [from, count].every((one) => one === undefined || (Number.isInteger(one) && one > 0));
  if (isRight) return [sort as DaySort, from, count];
  process.stderr.write(
    `npm run days -- [${Object.keys(DAY_SORTS).join('|')} [FROM [COUNT]]], FROM and COUNT from 1 on\n`,
  );
  process.exit(2);
}
