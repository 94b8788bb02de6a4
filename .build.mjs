// Builds dist/ from src and sim. npm runs it as `prepare`: after `npm ci` in a clone and before `npm pack`.
// The package ships it together with dist/ and without the sources: there it finds nothing to do.
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const house = new URL('./', import.meta.url);
const dist = new URL('dist/', house);
const command = new URL('src/cli/main.js', dist);

function say(sentence) {
  process.stderr.write(`counterproof: ${sentence}\n`);
}

/** Ends the build, and with it `npm ci`. */
function refuse(sentence) {
  say(sentence);
  process.exit(1);
}

/** npm only warns of a Node that is too old; the errors that would follow name everything but the cause. */
function checkNode() {
  const { engines } = JSON.parse(readFileSync(new URL('package.json', house), 'utf8'));
  const [major, minor] = engines.node.replace('>=', '').split('.').map(Number);
  const [ownMajor, ownMinor] = process.versions.node.split('.').map(Number);
  if (ownMajor < major || (ownMajor === major && ownMinor < minor)) {
    refuse(`Node ${engines.node} is needed, and this is ${process.versions.node}.`);
  }
}

function findCompiler() {
  try {
    return createRequire(import.meta.url).resolve('typescript/bin/tsc');
  } catch {
    return null;
  }
}

/** Compiles into an empty dist/, so that nothing of an earlier build stays. */
function build() {
  const compiler = findCompiler();
  if (compiler === null && existsSync(command)) {
    say('no compiler is installed (--omit=dev): dist/ stays as it was last built.');
    return;
  }
  if (compiler === null) refuse('dist/ cannot be built without the development packages: run `npm ci` first.');
  rmSync(dist, { recursive: true, force: true });
  const project = fileURLToPath(new URL('.tsconfig.build.json', house));
  const { status } = spawnSync(process.execPath, [compiler, '-p', project], { stdio: 'inherit' });
  if (status !== 0) refuse('dist/ was not built: the sources have the errors above.');
  chmodSync(command, 0o755); // npm does so at installation only; npx runs it after every build
}

checkNode();
if (existsSync(new URL('src/cli/main.ts', house))) build();
