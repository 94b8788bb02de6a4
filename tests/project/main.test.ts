// The counterproof command ends as it promises: with help, with 2 where it is misused, with 70 where it is at fault.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { describe, expect, test, vi } from 'vitest';
import { counterproof, node, ROOT } from './house.js';

const FAULTY = fileURLToPath(new URL('./fixtures/faulty.ts', import.meta.url));
const REFUSE_INK = new URL('./fixtures/refuse-ink.mjs', import.meta.url).href;
const { version } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as { version: string };

/** Child processes on a machine that also runs the other tests; one that hangs is ended sooner, in house.ts. */
vi.setConfig({ testTimeout: 60_000 });

/** The names under "Commands:" in the program's help. */
function commandNames(): string[] {
  const [, list = ''] = counterproof('--help').out.split('Commands:\n');
  const [commands = ''] = list.split('\n\n');
  return [...commands.matchAll(/^ {2}(\w+)/gm)].map(([, name = '']) => name).filter((name) => name !== 'help');
}

describe('help', () => {
  test('of the program and of every command ends with an example that names it', () => {
    const names = commandNames();
    expect(names).toContain('exposure');
    for (const words of [[], ...names.map((name) => [name])]) {
      const { code, out } = counterproof(...words, '--help');
      expect(code).toBe(0);
      expect(out).toMatch(new RegExp(`\\nExamples?:\\n(  \\$ .*\\n)*  \\$ counterproof ${words[0] ?? ''}.*\\n$`));
    }
  });

  test('is the same through the help command', () => {
    expect(counterproof('help', 'exposure')).toEqual(counterproof('exposure', '--help'));
  });

  test('loads nothing that draws', () => {
    const { code, out } = node(['--import', REFUSE_INK, `${ROOT}src/cli/main.ts`, '--help']);
    expect(code).toBe(0);
    expect(out).toContain('Usage: counterproof');
  });
});

test('the version is that of package.json, from any folder', () => {
  expect(counterproof('--version').out).toBe(`${version}\n`);
  expect(node([`${ROOT}src/cli/main.ts`, '--version'], tmpdir()).out).toBe(`${version}\n`);
});

describe('misuse ends with 2 and says on standard error what is wrong', () => {
  test.each([
    ['no command', [], 'Usage: counterproof'],
    ['an unknown option', ['--colour'], "unknown option '--colour'"],
    ['an unknown option of a command', ['exposure', '4 m/s2 2h', '--jso'], 'Did you mean --json?'],
    ['a missing argument', ['exposure'], 'missing required argument'],
    ['a misspelt command', ['exposur'], 'Did you mean exposure?'],
    ['a misspelt command that help is asked of', ['exposur', '--help'], 'Did you mean exposure?'],
    ['a misspelt command given to help', ['help', 'exposur'], 'Did you mean exposure?'],
    ['a name that every object has', ['constructor'], "unknown command 'constructor'"],
  ])('%s', (_, words, sentence) => {
    const { code, out, err } = counterproof(...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(sentence);
  });
});

describe('a fault of our own ends with 70 and one line that says where', () => {
  test.each(['throws', 'rejects', 'throws-later', 'rejects-unheard'])('%s', (command) => {
    const { code, out, err } = node([FAULTY, command]);
    expect({ code, out }).toEqual({ code: 70, out: '' });
    expect(err).toMatch(/^counterproof: .*the sum is wrong.*faulty\.ts:\d+.*\n$/);
  });
});

test('the outcome that a command sets is the exit code', () => {
  expect(node([FAULTY, 'does-not-hold']).code).toBe(1);
});

test('a reader that goes away ends the command quietly', () => {
  const words = ['--import', `${ROOT}.ts-node.mjs`, FAULTY, 'talks'].map((word) => `'${word}'`).join(' ');
  const script = `'${process.execPath}' ${words} | head -n 1; echo "\${PIPESTATUS[0]}"`;
  const { stdout, stderr } = spawnSync('bash', ['-c', script], { encoding: 'utf8', timeout: 20_000 });
  expect({ stdout, stderr }).toEqual({ stdout: 'line 0\n141\n', stderr: '' });
});

test('ts-node compiles .tsx that is imported as .js', () => {
  expect(node([fileURLToPath(new URL('./fixtures/draw.ts', import.meta.url))], tmpdir()).out).toBe('drawn\n');
});
