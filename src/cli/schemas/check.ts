// What `counterproof check --json` prints. check.schema.json beside this file is made from it; the command itself needs
// only the type, so that it starts without loading a schema library.
import { z } from 'zod';

const count = z.int().min(0);
const place = z.strictObject({ file: z.string(), line: z.int().min(1), column: z.int().min(1) });
const atMs = count.describe('ms since the start of the day');
const around = z.array(z.string()).describe('events around that moment, as canonical JSON');
const again = z.string().describe('the one command that shows it again');
const hash = z.string().regex(/^[0-9a-f]{64}$/);

const problem = z
  .strictObject({
    place,
    message: z.string(),
    expected: z.string(),
    nearest: z.string().nullable().describe('the known word that comes nearest'),
  })
  .describe('why the file could not be run');

const verdict = z.strictObject({
  held: z.boolean(),
  place,
  text: z.string().describe('the expectation as written'),
  expected: z.string(),
  seen: z.string(),
  atMs,
  around,
  again,
});

const breach = z
  .strictObject({
    invariant: z.string(),
    guards: z.array(z.string()).describe('requirements that the invariant guards'),
    sort: z.enum(['wrong', 'stuck']),
    text: z.string(),
    atMs,
    around,
    again,
  })
  .describe('a broken invariant');

const unmet = z
  .strictObject({ what: z.enum(['cut', 'attack']), place, atMs })
  .describe('a fault that was planned and never came about');

const run = z.strictObject({
  row: z.string().describe('the row of parameters, "" where the file has none'),
  whatIf: z.string().nullable(),
  held: z.boolean(),
  events: count,
  hashes: z.strictObject({ whole: hash, outward: hash }),
  unmet: z.array(unmet),
  verdicts: z.array(verdict),
  breaches: z.array(breach),
});

export const checkOutput = z
  .strictObject({
    held: z.boolean().describe('every file was read and every run holds'),
    files: z.array(
      z.strictObject({ file: z.string(), title: z.string(), problems: z.array(problem), runs: z.array(run) }),
    ),
  })
  .describe('Answer of counterproof check --json');

export type CheckOutput = z.infer<typeof checkOutput>;
