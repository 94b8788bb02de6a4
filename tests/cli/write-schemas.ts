// Writes the committed JSON Schemas anew; tests/cli/schemas.ts says how it is run.
import { writeFileSync } from 'node:fs';
import { jsonSchemaOf, SCHEMA_FOLDER, SCHEMAS } from './schemas.js';

for (const name of Object.keys(SCHEMAS)) {
  writeFileSync(new URL(`${name}.schema.json`, SCHEMA_FOLDER), `${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`);
}
