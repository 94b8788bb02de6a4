// The linter refuses, in every folder whose work reaches a trace, whatever may differ between two machines.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { ROOT } from './house.js';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const DIFFERS = [
  'Math.random()',
  'Math.sin(1)',
  'Math.pow(2, 0.5)',
  'Math.hypot(1, 2)',
  'Date.now()',
  'new Date()',
  'performance.now()',
  'new Intl.NumberFormat()',
  "'b'.localeCompare('a')",
  '(1.5).toLocaleString()',
  'process.env',
  'setTimeout(() => 1, 1)',
];
const SAME = ['Math.sqrt(2)', 'Math.floor(2.5)', 'Math.max(1, 2)', '[2, 1].sort()'];
const REACHES_TRACES = [
  'sim/kernel',
  ...'link port journal counter wearable trace scenario bench'.split(' ').map((f) => `src/${f}`),
];
const DRAWS = 'src/show';

let root = '';
let report = '';

/** One file for each folder and text; the linter looks at them all at once. */
function fileOf(folder: string, text: string): string {
  return `${folder}/part-${[...DIFFERS, ...SAME].indexOf(text)}.ts`;
}

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'house-'));
  for (const file of ['.biome.json', '.determinism.grit']) copyFileSync(join(ROOT, file), join(root, file));
  for (const folder of [...REACHES_TRACES, DRAWS]) {
    for (const text of [...DIFFERS, ...SAME]) {
      const file = join(root, fileOf(folder, text));
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, `export const it = ${text};\n`);
    }
  }
  const words = ['lint', '--reporter=github', '--max-diagnostics=none', '--diagnostic-level=error'];
  report = spawnSync(join(ROOT, 'node_modules/.bin/biome'), words, { cwd: root, encoding: 'utf8' }).stdout;
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

function isRefused(folder: string, text: string): boolean {
  return report.includes(`/${fileOf(folder, text)},`);
}

test.each(REACHES_TRACES)('%s refuses what differs between machines, and nothing else', (folder) => {
  expect(DIFFERS.filter((text) => !isRefused(folder, text))).toEqual([]);
  expect(SAME.filter((text) => isRefused(folder, text))).toEqual([]);
});

test('what reaches no trace may use the clock', () => {
  expect(isRefused(DRAWS, 'Date.now()')).toBe(false);
});
