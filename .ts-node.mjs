// The way in for development: `node --import ./.ts-node.mjs FILE.ts` runs TypeScript without a build, from any folder.
// Types are checked by `npm run types`, not here.
import { register } from 'node:module';
import { fileURLToPath } from 'node:url';

process.env.TS_NODE_TRANSPILE_ONLY = 'true';
process.env.TS_NODE_PROJECT = fileURLToPath(new URL('./tsconfig.json', import.meta.url));
register('ts-node/esm', import.meta.url);
