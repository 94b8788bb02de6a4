// Finds the package's own root, which lies at a different depth for the sources and for compiled code.
import { existsSync, readFileSync } from 'node:fs';

/** src/cli in the sources, dist/src/cli when compiled: the root is at most three folders up. */
const LEVELS_UP = ['../../', '../../../'];

/** URL of the folder that holds package.json and scenarios/. Throws where the installation is broken. */
export function packageRoot(): URL {
  for (const up of LEVELS_UP) {
    const root = new URL(up, import.meta.url);
    if (existsSync(new URL('package.json', root))) return root;
  }
  throw new Error('package.json is missing: install counterproof again');
}

/** The version in package.json. */
export function packageVersion(): string {
  const { version } = JSON.parse(readFileSync(new URL('package.json', packageRoot()), 'utf8')) as { version: string };
  return version;
}
