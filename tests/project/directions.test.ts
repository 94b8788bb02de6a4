// The checker of import directions bites: in a house made for the test, where every folder imports every other, it
// reports exactly the imports that the table of the brief does not allow.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { ICruiseResult } from 'dependency-cruiser';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { ROOT } from './house.js';

vi.setConfig({ testTimeout: 60_000 });

/** What each folder may import, beside itself; src/exposure is open to all of src. Files stand for a part of a folder. */
const TABLE: Readonly<Record<string, string>> = {
  sim: '',
  'src/exposure': '',
  'src/link': '',
  'src/port': 'src/link',
  'src/journal': 'src/port',
  'src/counter': 'src/link src/port src/journal',
  'src/wearable': 'src/link src/port src/journal',
  'src/vibration': 'src/counter/detector',
  'src/trace': 'src/port',
  'src/scenario': '',
  'src/bench': 'sim src/link src/port src/journal src/counter src/wearable src/trace src/scenario',
  'src/judge': 'src/trace src/scenario src/counter/rows src/wearable/rows',
  'src/prove':
    'sim src/link src/port src/journal src/counter src/wearable src/vibration src/trace src/scenario src/bench src/judge',
  'src/practice': 'src/wearable/record src/vibration/results',
  'src/show': 'src/trace src/scenario src/judge/verdict src/practice src/link/frames',
  'src/cli':
    'sim src/link src/port src/journal src/counter src/wearable src/vibration src/trace src/scenario src/bench src/judge src/prove src/practice src/show',
};
const FOLDERS = Object.keys(TABLE);

/** The files that single lines of the table name, and `part`, which stands for all the rest of a folder. */
const FILES = [
  ...FOLDERS.map((folder) => `${folder}/part`),
  'src/counter/detector',
  'src/counter/rows',
  'src/wearable/rows',
  'src/wearable/record',
  'src/vibration/results',
  'src/judge/verdict',
  'src/link/frames',
];

let root = '';
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'house-'));
  write('tsconfig.json', '{}');
  mkdirSync(join(root, 'sim'));
  write('package.json', '{"name":"house","dependencies":{"shipped":"1"},"devDependencies":{"tool":"1"}}');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function write(file: string, text: string): void {
  mkdirSync(dirname(join(root, file)), { recursive: true });
  writeFileSync(join(root, file), text);
}

/** The violations that the committed rules find, as "rule: from → to", sorted. */
function violations(): string[] {
  const words = ['--config', join(ROOT, '.dependency-cruiser.mjs'), '--output-type', 'json', 'src', 'sim'];
  const { stdout } = spawnSync(join(ROOT, 'node_modules/.bin/depcruise'), words, { cwd: root, encoding: 'utf8' });
  const { summary } = JSON.parse(stdout) as ICruiseResult;
  return summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} → ${to}`).sort();
}

function allowed(folder: string, file: string): boolean {
  if (file.startsWith(`${folder}/`)) return true;
  if (file.startsWith('src/exposure/')) return folder.startsWith('src/');
  return (TABLE[folder] ?? '').split(' ').some((open) => open !== '' && (file === open || file.startsWith(`${open}/`)));
}

test('every import between two folders is allowed or refused as the table says', () => {
  const expected: string[] = [];
  for (const file of FILES) write(`${file}.ts`, 'export const one = 1;\n');
  for (const folder of FOLDERS) {
    const up = folder.replace(/[^/]+/g, '..');
    for (const file of FILES) {
      const from = `${folder}/imports-${file.replaceAll('/', '-')}.ts`;
      write(from, `import { one } from '${up}/${file}.js';\nexport const two = one + one;\n`);
      if (!allowed(folder, file)) expected.push(`${folder} imports only what its line allows: ${from} → ${file}.ts`);
    }
  }
  expect(violations()).toEqual(expected.sort());
  expect(expected.length).toBeGreaterThan(100);
});

test('an import of types counts', () => {
  write('src/show/view.ts', 'export interface View { readonly rows: number }\n');
  write('src/trace/event.ts', "import type { View } from '../show/view.js';\nexport type Event = View;\n");
  expect(violations()).toEqual(['src/trace imports only what its line allows: src/trace/event.ts → src/show/view.ts']);
});

test('a folder without a line may not be imported', () => {
  write('src/helpers/all.ts', 'export const one = 1;\n');
  write('src/cli/main.ts', "export { one } from '../helpers/all.js';\n");
  expect(violations()).toEqual(['every folder has a line in the house: src/cli/main.ts → src/helpers/all.ts']);
});

test('nothing shipped imports tests', () => {
  write('tests/laws.ts', 'export const one = 1;\n');
  write('src/cli/main.ts', "export { one } from '../../tests/laws.js';\n");
  expect(violations()).toEqual(['src/cli imports only what its line allows: src/cli/main.ts → tests/laws.ts']);
});

test('a cycle is refused', () => {
  write('src/link/chicken.ts', "import type { Egg } from './egg.js';\nexport type Chicken = Egg | 1;\n");
  write('src/link/egg.ts', "import type { Chicken } from './chicken.js';\nexport type Egg = Chicken[];\n");
  expect(violations()[0]).toMatch(/^no cycles: src\/link\//);
});

test('development packages, unlisted packages and missing files are refused, shipped packages are not', () => {
  for (const name of ['shipped', 'tool', 'unlisted']) {
    write(`node_modules/${name}/package.json`, `{"name":"${name}","version":"1.0.0","main":"index.js"}`);
    write(`node_modules/${name}/index.js`, 'module.exports = 1;\n');
    write(`src/link/${name}.ts`, `import one from '${name}';\nexport const two = one;\n`);
  }
  write('src/link/missing.ts', "export * from './nowhere.js';\n");
  expect(violations()).toEqual([
    'every import is found: src/link/missing.ts → ./nowhere.js',
    'nothing shipped needs a development package: src/link/tool.ts → node_modules/tool/index.js',
    'nothing shipped needs a development package: src/link/unlisted.ts → node_modules/unlisted/index.js',
  ]);
});
