// npm run days -- [FROM] [COUNT]: random days with faults, of the seeds from FROM on, under all invariants and with keys. Of each
// day on which something breaks the shortest one that breaks the same is written beside, as a scenario file.
import { writeFileSync } from 'node:fs';
import { faultyDay } from '../../src/prove/days/day.js';
import { brokenOn, shortestFailure } from '../../src/prove/failure.js';
import { dayOfSeed } from '../../src/prove/shrink.js';

const [from = 1, count = 1000] = process.argv.slice(2).map(Number);
const SAY_EVERY = 100;
const days = faultyDay();
const options = { keys: true };
const started = process.hrtime.bigint();

let broken = 0;
for (let seed = from; seed < from + count; seed++) {
  if (brokenOn(dayOfSeed(days, seed), options) !== null) {
    broken += 1;
    const { what, scenario } = shortestFailure(days, seed, options);
    const file = `faulty-day-${seed}.yaml`;
    writeFileSync(file, scenario);
    process.stdout.write(`seed ${seed}: ${what}\n  counterproof check ${file}\n`);
  }
  if ((seed - from + 1) % SAY_EVERY === 0) process.stderr.write(`${seed - from + 1} days\n`);
}
const seconds = Number(process.hrtime.bigint() - started) / 1e9;
process.stdout.write(`${count} days, ${broken} on which something broke; ${(count / seconds).toFixed(1)} days/s\n`);
process.exitCode = broken === 0 ? 0 : 1;
