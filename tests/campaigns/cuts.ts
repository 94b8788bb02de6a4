// npm run cuts: power fails at every byte that a counter, then a wearable writes on a day with four hours of trigger time, a
// handover and page erases, and again at every byte of each recovery (KEP-1, WEA-5). Shared among the processors; takes about
// half an hour on two.
import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type Cuts, cutEverywhere } from '../../src/prove/cuts.js';
import { cutDay } from '../prove/cut-day.js';

const BURSTS = 160;
const SAY_EVERY = 1000;

const [device, shard, shards] = process.argv.slice(2);
if (device === undefined) for (const one of ['saw', 'Edda']) await shareOut(one);
else await cutShare(device, Number(shard), Number(shards));

async function shareOut(name: string): Promise<void> {
  const started = process.hrtime.bigint();
  const count = availableParallelism();
  const found = await Promise.all(Array.from({ length: count }, (_, index) => share(name, index, count)));
  const sum = (of: (cuts: Cuts) => number) => found.reduce((total, cuts) => total + of(cuts), 0);
  const seconds = Number(process.hrtime.bigint() - started) / 1e9;
  process.stdout.write(
    `power of ${name} failed at ${sum(({ cuts }) => cuts)} bytes, and at ${sum(({ again }) => again)} of the recoveries; ` +
      `at most ${Math.max(...found.map(({ mostLost }) => mostLost))} windows of trigger time were lost; ` +
      `${Math.round(seconds)} s on ${count} processes\n`,
  );
  const broken = found.flatMap((cuts) => cuts.broken);
  for (const what of broken) process.stdout.write(`broken: ${what}\n`);
  if (broken.length > 0) process.exitCode = 1;
}

function share(name: string, index: number, count: number): Promise<Cuts> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(import.meta.url), [name, String(index), String(count)]);
    child.once('message', (message) => resolve(message as Cuts));
    child.once('exit', (code) => reject(new Error(`a share of the cuts ended with ${code}`)));
  });
}

async function cutShare(name: string, from: number, by: number): Promise<void> {
  const found = cutEverywhere(cutDay(BURSTS), name, { recoveries: true, from, by, progress }, { keys: false });
  await new Promise((sent) => process.send?.(found, sent));
}

function progress({ cuts, again }: Readonly<Cuts>): void {
  if (cuts % SAY_EVERY === 0) process.stderr.write(`${cuts} bytes, ${again} of recoveries\n`);
}
