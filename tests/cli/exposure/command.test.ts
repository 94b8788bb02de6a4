import { Command, CommanderError } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addExposure } from '../../../src/cli/exposure.js';

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
  addExposure(program);
  await program.parseAsync(words, { from: 'user' });
}

describe('the command', () => {
  it('prints sentences to standard output', async () => {
    await counterproof('exposure', '5 m/s2 3h');
    // 5 m/s² for 3 h, 150 points: UK Health and Safety Executive, ready reckoner, worked illustration.
    expect(out).toMatch(/^The day comes to .*150\.0 points/);
    expect(err).toBe('');
    expect(process.exitCode).toBeUndefined();
  });

  it('prints data with --json, under the regime that is asked for', async () => {
    await counterproof('exposure', '--json', '--regime', 'jp-0710-2', '5 m/s2 3h');
    expect(JSON.parse(out)).toMatchObject({ regime: { id: 'jp-0710-2' }, day: { points: 150 } });
  });

  it.each([['--json'], []])(
    'leaves standard output empty and exits 2 where an argument is wrong',
    async (...options) => {
      await counterproof('exposure', '5 m/s', ...options);
      expect(out).toBe('');
      expect(err).toContain('operation 1 cannot be read');
      expect(process.exitCode).toBe(2);
    },
  );

  it('refuses to run without an operation', async () => {
    await expect(counterproof('exposure')).rejects.toThrow(CommanderError);
    expect(err).toContain("missing required argument 'operations'");
  });

  it('lists the known regimes in its help', async () => {
    await expect(counterproof('exposure', '--help')).rejects.toThrow(CommanderError);
    for (const id of ['eu-2002-44', 'gb-2005', 'jp-0710-2']) expect(out).toContain(id);
  });
});
