// Runs random days under all invariants, as a process of its own in a copy of the sources, and says as a line of JSON what was
// broken on each of them: whoever ends this process early has what it found by then.
import { dayOfSeed } from '../../src/prove/shrink.js';
import { tryDay } from '../../src/prove/try-day.js';
import { TraceHash } from '../../src/trace/hash.js';
import { daysOf } from './days.js';
import { type Finding, type Look, THROWS } from './finding.js';

const { days: kind, keys, fromSeed, count, seconds } = JSON.parse(process.argv[2]!) as Look;
const days = daysOf(kind);
for (let seed = fromSeed; seed < fromSeed + count && workedSeconds() < seconds; seed++) {
  process.stdout.write(`${JSON.stringify(find(seed))}\n`);
}

function workedSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000_000;
}

function find(seed: number): Finding {
  try {
    const hash = new TraceHash();
    const breaches = tryDay(dayOfSeed(days, seed), { keys, watchers: [(event) => hash.see(event)] });
    return { seed, broken: [...new Set(breaches.map(({ invariant }) => invariant))], thrown: '', ...hash.digest() };
  } catch (thrown) {
    const said = thrown instanceof Error ? thrown.message : String(thrown);
    return { seed, broken: [THROWS], thrown: said, whole: '', outward: '' };
  }
}
