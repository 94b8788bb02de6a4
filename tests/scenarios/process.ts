// Runs the counterproof command in a process of its own, from the sources. Long, because it runs many days on a machine that
// other tests keep busy; what hangs longer is ended.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const TS_NODE = new URL('../../.ts-node.mjs', import.meta.url).href;
const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
export const HANGS_AFTER_MS = 90_000;

export interface Surroundings {
  readonly folder?: string;
  readonly environment?: Readonly<Record<string, string>>;
}

export function counterproof(words: readonly string[], { folder, environment }: Surroundings = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', TS_NODE, MAIN, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...environment },
    timeout: HANGS_AFTER_MS,
  });
  return { code: status, out: stdout, err: stderr };
}
