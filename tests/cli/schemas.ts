// Every schema of a --json output by the name of its command, and the committed file that is made from it.
// After a schema has changed: node --import ./.ts-node.mjs tests/cli/write-schemas.ts && npx biome format --write src/cli
import { z } from 'zod';
import { checkOutput } from '../../src/cli/schemas/check.js';
import { detectOutput } from '../../src/cli/schemas/detect.js';
import { exposureOutput } from '../../src/cli/schemas/exposure.js';
import { measureOutput } from '../../src/cli/schemas/measure.js';
import { readoutOutput } from '../../src/cli/schemas/readout.js';

export const SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  check: checkOutput,
  detect: detectOutput,
  exposure: exposureOutput,
  measure: measureOutput,
  readout: readoutOutput,
};

export const SCHEMA_FOLDER = new URL('../../src/cli/schemas/', import.meta.url);

export function jsonSchemaOf(name: string): unknown {
  const schema = SCHEMAS[name];
  if (schema === undefined) throw new Error(`there is no schema ${name}`);
  return z.toJSONSchema(schema, { target: 'draft-2020-12' });
}
