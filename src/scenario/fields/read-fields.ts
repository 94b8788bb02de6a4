// Reads a map of the file by a strict zod definition: every unknown key, missing key and wrong value is reported at its
// own place, all at once.
import type { z } from 'zod';
import type { Scope } from '../scope.js';
import type { Span } from '../source.js';
import { entryOf, type MapNode, quoted } from '../yaml/node.js';
import type { Found, RefusedAt } from './field.js';

interface About {
  /** For sentences: "a work step", "a tool". */
  readonly what: string;
  /** Where a missing key is reported. */
  readonly span: Span;
}

/** The values of the fields, or null where there was a problem. */
export function readFields<S extends z.ZodObject>(
  definition: S,
  map: MapNode,
  about: About,
  scope: Scope,
): z.output<S> | null {
  const { values, complete } = readSome(definition, map, about, scope);
  return complete ? (values as z.output<S>) : null;
}

/** The values of those fields that have one; complete where all that must be there is, and nothing else. */
export function readSome<S extends z.ZodObject>(
  definition: S,
  map: MapNode,
  { what, span }: About,
  scope: Scope,
): { readonly values: Partial<z.output<S>>; readonly complete: boolean } {
  const { problems } = scope;
  const known = Object.keys(definition.shape);
  const values: Record<string, unknown> = {};
  let complete = true;
  for (const { key, keySpan, value } of map.entries) {
    if (known.includes(key)) continue;
    const has = `it has ${known.join(', ')}`;
    // A key without even a colon: what stands behind a comma.
    const stray = value.span === keySpan ? `; a text with a comma in it stands in quotes` : '';
    const expected = separatorHint(key, known) ?? `${has}${stray}`;
    problems.on(keySpan, 'unknown', `${what} has no ${quoted(key)}`, expected, { word: key, known });
    complete = false;
  }
  for (const [key, schema] of Object.entries(definition.shape) as [string, z.ZodType][]) {
    const read = schema.safeParse(entryOf(map, key)?.value);
    if (read.success) {
      values[key] = read.data;
      for (const reference of (read.data as Found<unknown> | undefined)?.references ?? []) scope.check(reference);
      continue;
    }
    complete = false;
    for (const issue of read.error.issues) {
      const { at, why } = ('params' in issue ? issue.params : {}) as Partial<RefusedAt>;
      if (at === undefined || why === undefined) {
        problems.on(span, 'missing', `${what} needs "${key}"`, describe(schema, key));
      } else {
        problems.at(at, 'value', why.refused, why.expected === '' ? '' : `expected ${why.expected}`, why.near);
      }
    }
  }
  return { values: values as Partial<z.output<S>>, complete };
}

/** For a key that begins like a known one: YAML wants a colon and a space behind a key. */
function separatorHint(key: string, known: readonly string[]): string | null {
  const begins = known.find((word) => key.startsWith(word) && /^[:\s：=]/.test(key.slice(word.length)));
  return begins === undefined ? null : `a colon and an ordinary space stand behind a key: "${begins}: …"`;
}

/** "by: a worker's name": what a field that is not there should hold. */
function describe(schema: z.ZodType, key: string): string {
  const description = (schema as { in?: z.ZodType }).in?.meta()?.description;
  return description === undefined ? '' : `${key}: ${description}`;
}
