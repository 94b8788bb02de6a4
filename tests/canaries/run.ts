// Runs random days on a copy of the sources with one fault in it, as a child process that is ended when it takes too long.
import { spawn } from 'node:child_process';
import type { Canary } from './canary.js';
import { type Finding, type Look, THROWS } from './finding.js';
import type { Workshop } from './workshop.js';

/** A day that takes longer is endless, s. Counted in ticks, so that a machine which pauses all processes makes no day endless. */
const LONGEST_DAY_SECONDS = 60;

/** What each day broke, in the order of their seeds. canary null: the sources as they are. */
export function run(workshop: Workshop, canary: Canary | null, look: Look): Promise<readonly Finding[]> {
  const child = spawn(process.execPath, [workshop.runner(canary), JSON.stringify(look)]);
  let said = '';
  let failed = '';
  let endless = false;
  let silentSeconds = 0;
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
    silentSeconds = 0;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => (failed += text));
  const watch = setInterval(() => {
    if (++silentSeconds > LONGEST_DAY_SECONDS) endless = child.kill('SIGKILL');
  }, 1000);
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => {
      clearInterval(watch);
      const findings = said.split('\n').filter((line) => line.endsWith('}'));
      const found = findings.map((line) => JSON.parse(line) as Finding);
      if (endless) resolve([...found, endlessDay(look.fromSeed + found.length)]);
      else if (code === 0) resolve(found);
      else reject(new Error(`${canary?.name ?? 'the sources as they are'}: the runner ended with ${code}: ${failed}`));
    });
  });
}

function endlessDay(seed: number): Finding {
  return { seed, broken: [THROWS], thrown: 'the day does not end', whole: '', outward: '' };
}
