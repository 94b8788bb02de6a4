import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { Command, CommanderError } from 'commander';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { addReadout } from '../../../src/cli/readout.js';
import { answerTrace } from '../../../src/cli/trace/answer.js';

const FILE = fileURLToPath(new URL('../../../scenarios/wearable-read-out.yaml', import.meta.url));

let out = '';
let err = '';

beforeEach(() => {
  out = '';
  err = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += text;
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += text;
    return true;
  });
});

afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});

async function counterproof(...words: string[]): Promise<void> {
  const program = new Command('counterproof').exitOverride();
  addReadout(program);
  await program.parseAsync(['readout', ...words], { from: 'user' });
}

it('prints to standard output', async () => {
  await counterproof(FILE, '--wearable', 'Edda');
  expect(out).toMatch(/^Edda's wearable, read out at 15:00:00/);
  expect(err).toBe('');
  expect(process.exitCode).toBeUndefined();
});

it('leaves standard output empty and exits 2 where there is no such record', async () => {
  await counterproof(FILE, '--counter', 'drill', '--json');
  expect(out).toBe('');
  expect(err).toContain("drill's counter is not read out on this day");
  expect(process.exitCode).toBe(2);
});

it('reads a record from standard input, and says so', { timeout: 60_000 }, () => {
  const main = fileURLToPath(new URL('../../../src/cli/main.ts', import.meta.url));
  const words = ['--import', './.ts-node.mjs', main, 'readout', FILE, '--wearable', 'Edda', '--record', '-'];
  const cwd = fileURLToPath(new URL('../../../', import.meta.url));
  const trace = answerTrace(FILE, {});
  if ('refusal' in trace) throw new Error(trace.refusal);
  const record = [...trace.pieces].join('').match(/"bytes":"([0-9a-f]+)"[^\n]*"kind":"shown\.record"/)?.[1] ?? '';
  const { stdout, stderr } = spawnSync(process.execPath, words, { cwd, input: record, encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(stdout).toMatch(/^Edda's wearable, as in standard input: 1 shift, 2 sessions/);
});

it.each([
  ['two devices', ['--wearable', 'Edda', '--counter', 'drill']],
  ['two formats', ['--wearable', 'Edda', '--json', '--csv']],
  ['a time of a saved record', ['--wearable', 'Edda', '--record', 'a.hex', '--at', '12:00']],
])('refuses %s', async (_, words) => {
  await expect(counterproof(FILE, ...words)).rejects.toThrow(CommanderError);
  expect(err).toContain('cannot be used with option');
});
