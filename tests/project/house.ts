// Where the project lies, and how its command is run in tests: from the sources, as a child process that is ended
// where it hangs.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TS_NODE = new URL('../../.ts-node.mjs', import.meta.url).href;
const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const HANGS_AFTER_MS = 20_000;

export interface Ending {
  /** null where it had to be ended because it hung. */
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs node with the words given, TypeScript understood. */
export function node(words: readonly string[], folder = ROOT): Ending {
  const child = spawnSync(process.execPath, ['--import', TS_NODE, ...words], {
    cwd: folder,
    encoding: 'utf8',
    timeout: HANGS_AFTER_MS,
  });
  return { code: child.status, out: child.stdout, err: child.stderr };
}

/** Runs the counterproof command. */
export function counterproof(...words: readonly string[]): Ending {
  return node([MAIN, ...words]);
}
