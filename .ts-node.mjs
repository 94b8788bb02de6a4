// The way in for development: `node --import ./.ts-node.mjs FILE.ts` runs TypeScript without a build.
// Types are checked by `npm run types`, not here.
import { register } from 'node:module';
import { pathToFileURL } from 'node:url';

process.env.TS_NODE_TRANSPILE_ONLY = 'true';
register('ts-node/esm', pathToFileURL('./'));
