#!/usr/bin/env node
// The counterproof command: which commands there are. Each is a file of its own, loaded when it is called.
import { type Commands, run } from './run.js';

const commands: Commands = {
  exposure: async () => (await import('./exposure.js')).addExposure,
};

await run(commands, process.argv.slice(2));
