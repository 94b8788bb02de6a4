// Runs random days under all invariants, as a process of its own in a copy of the sources, and says as a line of JSON what was
// broken on each of them: whoever ends this process early has what it found by then.
import { dayOfSeed } from '../../src/prove/shrink.js';
import { tryDay } from '../../src/prove/try-day.js';
import { daysOf } from './days.js';
import { type Finding, type Look, THROWS } from './finding.js';

const { days: kind, keys, fromSeed, count, seconds } = JSON.parse(process.argv[2]!) as Look;
const days = daysOf(kind);
const endsAt = process.hrtime.bigint() + BigInt(seconds) * 1_000_000_000n;
for (let seed = fromSeed; seed < fromSeed + count && process.hrtime.bigint() < endsAt; seed++) {
  process.stdout.write(`${JSON.stringify(find(seed))}\n`);
}

function find(seed: number): Finding {
  try {
    const breaches = tryDay(dayOfSeed(days, seed), { keys });
    return { seed, broken: [...new Set(breaches.map(({ invariant }) => invariant))], thrown: '' };
  } catch (thrown) {
    return { seed, broken: [THROWS], thrown: thrown instanceof Error ? thrown.message : String(thrown) };
  }
}
