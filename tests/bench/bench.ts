// npm run bench: how many working days the bench runs in a second, on one core, in one run:
// on the transition table and on actors, outcome only, and with trace, hash and invariants, each with frames as bytes under a
// checksum and with keys; beside them the limit, a bare heap loop that pushes and takes the same number of events and does
// nothing else. Then what W_h costs a sample of an axis, beside a loop that only copies the samples.
import { DueQueue } from '../../sim/kernel/queue.js';
import { Bench, type BenchOptions } from '../../src/bench/bench.js';
import { actorEngine } from '../../src/bench/engines/actors.js';
import { tableEngine } from '../../src/bench/engines/table.js';
import { Invariants } from '../../src/judge/invariants/watcher.js';
import { TraceHash } from '../../src/trace/hash.js';
import { benchDay } from './bench-day.js';
import { weightingLines } from './weighting.js';

const ROUNDS = 7;
const DAYS_A_ROUND = 8;
const PENDING = 24;

interface Row {
  readonly what: string;
  readonly run: () => void;
}

const day = benchDay();
const counted = Bench.open(day, { keys: false });
counted.run();

const rows: readonly Row[] = [
  { what: `bare heap loop, ${counted.steps} events`, run: heapLoop },
  { what: 'table, bytes, outcome only', run: () => outcome({ engine: tableEngine, keys: false }) },
  { what: 'table, bytes, trace kept', run: () => traced({ keys: false }) },
  { what: 'table, bytes, trace, hash, invariants', run: () => everything({ engine: tableEngine, keys: false }) },
  { what: 'table, keys, outcome only', run: () => outcome({ engine: tableEngine }) },
  { what: 'table, keys, trace, hash, invariants', run: () => everything({ engine: tableEngine }) },
  { what: 'actors, bytes, outcome only', run: () => outcome({ engine: actorEngine, keys: false }) },
  { what: 'actors, keys, trace, hash, invariants', run: () => everything({ engine: actorEngine }) },
];

print(
  `One 8 h day: ${day.tools.length} tools, ${triggerHours()} h of trigger time each, ${day.workers.length} workers;`,
);
print(
  `${counted.steps} events in the bench, ${counted.events.length} in the trace. Node ${process.version}, one thread.`,
);
print(`${ROUNDS} rounds of ${DAYS_A_ROUND} days (actors: 1); median, best and worst of the rounds.\n`);
print(
  `${'what'.padEnd(38)}${'ms a day'.padStart(10)}${'days/s'.padStart(9)}${'best'.padStart(9)}${'worst'.padStart(9)}`,
);
for (const row of rows) print(measure(row));
print('');
for (const line of weightingLines()) print(line);

function measure({ what, run }: Row): string {
  const days = what.startsWith('actors') ? 1 : DAYS_A_ROUND;
  run();
  const perDayMs = Array.from({ length: ROUNDS }, () => {
    const start = process.hrtime.bigint();
    for (let made = 0; made < days; made++) run();
    return Number(process.hrtime.bigint() - start) / 1e6 / days;
  }).sort((a, b) => a - b);
  const median = perDayMs[Math.floor(ROUNDS / 2)] ?? 0;
  const rates = [median, perDayMs[0] ?? 0, perDayMs[ROUNDS - 1] ?? 0].map((ms) => (1000 / ms).toFixed(1).padStart(9));
  return what.padEnd(38) + median.toFixed(2).padStart(10) + rates.join('');
}

function outcome(options: BenchOptions): void {
  Bench.open(day, { ...options, trace: 'none' }).run();
}

function traced(options: BenchOptions): void {
  Bench.open(day, options).run();
}

function everything(options: BenchOptions): void {
  const hash = new TraceHash();
  const invariants = new Invariants();
  const watchers = [(event: Parameters<TraceHash['see']>[0]) => hash.see(event), invariants.see.bind(invariants)];
  Bench.open(day, { ...options, watchers, trace: 'watched' }).run();
  hash.digest();
  const breaches = invariants.end(day.untilMs);
  if (breaches.length > 0) throw new Error(`the day that is measured breaks an invariant: ${breaches[0]?.text}`);
}

/** As many events, with as many pending at a time as the bench has. */
function heapLoop(): void {
  const queue = new DueQueue<number>({ heap: [], nextOrder: 0 });
  for (let made = 0; made < PENDING; made++) queue.push(made * 37, made);
  for (let made = 0; made < counted.steps; made++) queue.push(queue.nextMs() + 5000, queue.take());
}

function triggerHours(): string {
  const ms = day.events.reduce(
    (sum, event) => sum + (event.do === 'run' && event.tool === 'breaker' ? event.forMs : 0),
    0,
  );
  return (ms / 3_600_000).toFixed(1);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
