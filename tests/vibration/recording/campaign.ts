// npm run recordings, the long campaign over recordings: ten thousand damaged files, an hour of three channels and what it costs, and a line and a
// comment that do not end. Says what came of them; ends with exit code 1 where something went wrong.
import { costOf, writeEndless, writeLongCsv, writeSparseWav } from './big-files.js';
import { RATE_HZ } from './csv-files.js';
import { fuzzRecordings } from './fuzz.js';
import { folder } from './read-all.js';
import { USUAL as WAV } from './wav-files.js';

const FILES = 10_000;
const SEED = 20_261;
const HOUR_FRAMES = 3600 * 25_600;
const MAX_RESIDENT_MB = 300;
const ENDLESS_MB = 300;
const CSV_ROWS = 2_000_000;

const { refused, read, withSamples, measured, found, faults } = await fuzzRecordings(FILES, SEED);
const told = Object.entries(found).map(([what, count]) => `${what} ${count}`);
print(
  `${FILES} damaged files: ${refused} refused, ${read} read (${withSamples} with samples, ${measured} with values), ${faults.length} faults`,
);
print(`found: ${told.join(', ')}`);
judge(faults.length === 0, faults);

const files = folder();
try {
  for (const type of ['int16', 'int24', 'float32'] as const) {
    const path = files.write('hour.wav', '');
    writeSparseWav(path, { ...WAV, type }, HOUR_FRAMES);
    await weigh(`an hour of 3 × 25.6 kHz ${type}`, path, HOUR_FRAMES);
  }
  await weigh(`${ENDLESS_MB} MB without a line end`, endless('x;y;z\n1;2;3\n'), 1);
  await weigh(`${ENDLESS_MB} MB of comment before a header`, endless('#', '\nx;y;z\n1;2;3\n'), 1);
  const rows = files.write('long.csv', '');
  writeLongCsv(rows, CSV_ROWS);
  await weigh(`${CSV_ROWS} rows of CSV`, rows, CSV_ROWS);
} finally {
  files.remove();
}

function endless(before: string, after = ''): string {
  const path = files.write('endless.csv', '');
  writeEndless(path, before, ENDLESS_MB, after);
  return path;
}

async function weigh(what: string, path: string, frames: number): Promise<void> {
  const cost = await costOf(path, { rateHz: RATE_HZ, fullScale: 500 });
  print(
    `${what}: ${cost.cpuS.toFixed(2)} s of a processor, ${cost.residentMb.toFixed(0)} MB resident, ${cost.frames} frames`,
  );
  judge(cost.frames === frames && cost.residentMb < MAX_RESIDENT_MB, [`${what}: not all of it, or too much memory`]);
}

function judge(good: boolean, broken: readonly string[]): void {
  if (good) return;
  for (const fault of broken) print(`broken: ${fault}`);
  process.exitCode = 1;
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
