// counterproof air: writes a capture, never over a file that is there unless that is asked for.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Command, CommanderError } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { answerAir } from '../../../src/cli/air/answer.js';
import { addAir } from '../../../src/cli/air.js';
import type { Pick } from '../../../src/cli/scenario/pick-run.js';

const FILE = fileURLToPath(new URL('../../../scenarios/wearable-read-out.yaml', import.meta.url));
const SECTION_HEADER = '0a0d0d0a';

let out: Uint8Array[] = [];
let err = '';
let folder = '';

beforeEach(() => {
  out = [];
  err = '';
  folder = mkdtempSync(join(tmpdir(), 'counterproof-'));
  vi.spyOn(process.stdout, 'write').mockImplementation((piece) => {
    out.push(Buffer.from(piece));
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += text;
    return true;
  });
});

afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
});

async function air(...words: string[]): Promise<void> {
  const program = new Command('counterproof').exitOverride();
  addAir(program);
  await program.parseAsync(['air', FILE, ...words], { from: 'user' });
}

describe('the file', () => {
  it('is written, and said to be', async () => {
    const file = join(folder, 'day.pcapng');
    await air('-o', file);
    expect(readFileSync(file).subarray(0, 4).toString('hex')).toBe(SECTION_HEADER);
    expect(Buffer.concat(out).toString()).toMatch(/day\.pcapng: \d{4} frames, \d+ of them not heard\n$/);
    expect(err).toBe('');
    expect(process.exitCode).toBeUndefined();
  });

  it('is left as it is where it is there already, unless --force is given', async () => {
    const file = join(folder, 'day.pcapng');
    writeFileSync(file, 'mine');
    await air('-o', file);
    expect(readFileSync(file, 'utf8')).toBe('mine');
    expect(err).toBe(`${file}: there is such a file already; --force writes over it\n`);
    expect(process.exitCode).toBe(2);
    process.exitCode = undefined;
    await air('-o', file, '--force');
    expect(readFileSync(file).subarray(0, 4).toString('hex')).toBe(SECTION_HEADER);
    expect(process.exitCode).toBeUndefined();
  });

  it('is the same as what goes to standard output', async () => {
    const file = join(folder, 'day.pcapng');
    await air('-o', file);
    out = [];
    await air('-o', '-');
    expect(Buffer.concat(out).equals(readFileSync(file))).toBe(true);
    expect(err).toBe('');
  });
});

it.each([
  ['a folder that is not there', 'nowhere/day.pcapng', 'there is no such folder'],
  ['a folder', '.', 'this is a folder'],
])('refuses %s, and exits 2', async (_, path, sentence) => {
  await air('-o', join(folder, path), '--force');
  expect(err).toContain(sentence);
  expect(Buffer.concat(out).length).toBe(0);
  expect(process.exitCode).toBe(2);
});

it('refuses a what-if that is not there, and writes nothing', async () => {
  const file = join(folder, 'day.pcapng');
  await air('-o', file, '--what-if', 'a lighter drill');
  expect(err).toContain('this scenario has no what-ifs');
  expect(existsSync(file)).toBe(false);
  expect(process.exitCode).toBe(2);
});

it('says in the capture which row and what-if of the day it is of', () => {
  const file = join(folder, 'day.yaml');
  writeFileSync(
    file,
    'title: Rows\nregime: gb-2005\nfrom: 07:00\nuntil: $end\ntools: {saw: {hand: rotary, magnitude: 5.0}}\nworkers: {Edda: {}}\n' +
      'day: []\nexpect: []\nrows: [{end: 07:01}, {end: 07:02}]\nwhat-if: {lighter: [{magnitude: saw, to: 4.0}]}\n',
  );
  const comment = (pick: Pick) => {
    const answer = answerAir(file, pick);
    if ('refusal' in answer) throw new Error(answer.refusal);
    return Buffer.from([...answer.pieces][0]!).toString();
  };
  expect(comment({})).toContain('Rows (row end=07:01). A simulated day: no device has sent these frames.');
  expect(comment({ row: 'end=07:02', whatIf: 'lighter' })).toContain('Rows (row end=07:02, what if: lighter).');
});

it('asks for the file', async () => {
  await expect(air()).rejects.toThrow(CommanderError);
  expect(err).toContain("required option '-o, --output <file>' not specified");
});
