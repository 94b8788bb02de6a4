// Runs random days on a copy of the sources with one fault in it, as a child process that is ended when it takes too long.
import { spawn } from 'node:child_process';
import type { Canary } from './canary.js';
import { type Finding, type Look, THROWS } from './finding.js';
import type { Workshop } from './workshop.js';

/** A day that takes longer is endless, s. Counted in ticks, so that a machine which pauses all processes makes no day endless. */
const LONGEST_DAY_SECONDS = 60;

/** What each day broke, in the order of their seeds. canary null: the sources as they are. */
export function run(workshop: Workshop, canary: Canary | null, look: Look): Promise<readonly Finding[]> {
  return workshop.with(canary, async (runner) => {
    const { said, failed, code, endless } = await output(runner, look);
    const lines = said.split('\n').filter((line) => line.endsWith('}'));
    const found = lines.map((line) => JSON.parse(line) as Finding);
    if (endless) return [...found, endlessDay(look.fromSeed + found.length)];
    if (code === 0) return found;
    throw new Error(`${canary?.name ?? 'the sources as they are'}: the runner ended with ${code}: ${failed}`);
  });
}

interface Output {
  said: string;
  failed: string;
  code: number | null;
  endless: boolean;
}

function output(runner: string, look: Look): Promise<Output> {
  const child = spawn(process.execPath, [runner, JSON.stringify(look)]);
  const made: Output = { said: '', failed: '', code: null, endless: false };
  let silentSeconds = 0;
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    made.said += text;
    silentSeconds = 0;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    made.failed += text;
  });
  const watch = setInterval(() => {
    silentSeconds += 1;
    if (silentSeconds > LONGEST_DAY_SECONDS) made.endless = child.kill('SIGKILL');
  }, 1000);
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => {
      clearInterval(watch);
      resolve({ ...made, code });
    });
  });
}

function endlessDay(seed: number): Finding {
  return { seed, broken: [THROWS], thrown: 'the day does not end', whole: '', outward: '' };
}
