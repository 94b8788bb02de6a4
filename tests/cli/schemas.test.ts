import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchemaOf, SCHEMA_FOLDER, SCHEMAS } from './schemas.js';

describe('JSON Schemas', () => {
  it.each(Object.keys(SCHEMAS))('of %s is committed as it is made from the code', (name) => {
    const committed = JSON.parse(readFileSync(new URL(`${name}.schema.json`, SCHEMA_FOLDER), 'utf8'));
    // Where this fails: tests/cli/schemas.ts says how the files are written anew.
    expect(committed).toEqual(jsonSchemaOf(name));
  });

  it('has no committed file that no code stands behind', () => {
    const files = readdirSync(SCHEMA_FOLDER).filter((file) => file.endsWith('.json'));
    expect(files.sort()).toEqual(
      Object.keys(SCHEMAS)
        .map((name) => `${name}.schema.json`)
        .sort(),
    );
  });
});
