#!/usr/bin/env node
// The counterproof command: which commands there are. Each is a file of its own, loaded when it is called.
import { type Commands, run } from './run.js';

const commands: Commands = {
  replay: async () => (await import('./replay.js')).addReplay,
  check: async () => (await import('./check.js')).addCheck,
  trace: async () => (await import('./trace.js')).addTrace,
  air: async () => (await import('./air.js')).addAir,
  readout: async () => (await import('./readout.js')).addReadout,
  measure: async () => (await import('./measure.js')).addMeasure,
  detect: async () => (await import('./detect.js')).addDetect,
  exposure: async () => (await import('./exposure.js')).addExposure,
};

await run(commands, process.argv.slice(2));
