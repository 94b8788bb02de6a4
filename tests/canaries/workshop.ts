// A copy of the sources in a temporary directory, as JavaScript, in which one file has a fault in it. The repository itself is
// never changed, and each copy is a program of its own, so that one fault does not touch another.
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { type Canary, withFault } from './canary.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** What takes no part in a day is left out. */
const COPIED = ['sim', 'src', 'tests/canaries'];
const LEFT_OUT = /^src\/(cli|show|practice)\//;
const RUNNER = 'tests/canaries/runner.js';

export class Workshop {
  private readonly home = mkdtempSync(join(tmpdir(), 'canaries-'));
  private readonly texts = new Map<string, string>();
  private copies = 0;

  /** Reads and translates everything once: whatever is edited meanwhile is not seen. */
  constructor() {
    const whole = join(this.home, '0');
    for (const file of COPIED.flatMap(sourcesIn)) {
      const text = readFileSync(join(ROOT, file), 'utf8');
      this.texts.set(file, text);
      translate(whole, file, text);
    }
    writeFileSync(join(whole, 'package.json'), '{ "type": "module" }\n');
    symlinkSync(join(ROOT, 'node_modules'), join(whole, 'node_modules'));
  }

  /** Does something with the runner as it is, or with that of a copy with a fault, which is gone afterwards. */
  async with<T>(canary: Canary | null, act: (runner: string) => Promise<T>): Promise<T> {
    const whole = join(this.home, '0');
    if (canary === null) return act(join(whole, RUNNER));
    this.copies += 1;
    const copy = join(this.home, String(this.copies));
    cpSync(whole, copy, { recursive: true, verbatimSymlinks: true });
    translate(copy, canary.file, this.faulty(canary));
    try {
      return await act(join(copy, RUNNER));
    } finally {
      rmSync(copy, { recursive: true, force: true });
    }
  }

  /** The text of the canary's file with the fault in it, of the sources as they were when this was made. */
  faulty(canary: Canary): string {
    const text = this.texts.get(canary.file);
    if (text === undefined)
      throw new Error(`the canary "${canary.name}" is of a file that is not there: ${canary.file}`);
    return withFault(text, canary);
  }

  close(): void {
    rmSync(this.home, { recursive: true, force: true });
  }
}

function sourcesIn(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
    .map((file) => join(folder, file))
    .filter((file) => !LEFT_OUT.test(file));
}

function translate(into: string, file: string, text: string): void {
  const made = join(into, file.replace(/\.ts$/, '.js'));
  mkdirSync(dirname(made), { recursive: true });
  const compilerOptions = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022, verbatimModuleSyntax: true };
  writeFileSync(made, ts.transpileModule(text, { compilerOptions }).outputText);
}
