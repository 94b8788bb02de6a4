// node --import ./.ts-node.mjs tests/canaries/matrix.ts [--days=60] [--seconds=120] [--kind=dense] [--json] [parts of names…]: tries every canary, or those
// whose names have one of the parts in them, on so many random days each, and prints which invariants catch which of them.
// Two processes at a time. Takes about a quarter of an hour for all of them.
import { parseArgs } from 'node:util';
import { CANARIES } from './canaries.js';
import { DAY_KINDS } from './canary.js';
import { matrixOf } from './rows.js';
import { printed } from './table.js';

const { values, positionals } = parseArgs({
  options: {
    days: { type: 'string', default: '60' },
    seconds: { type: 'string', default: '120' },
    json: { type: 'boolean' },
    kind: { type: 'string' },
  },
  allowPositionals: true,
});
const kind = DAY_KINDS.find((one) => one === values.kind);
const chosen = CANARIES.filter(
  ({ name }) => positionals.length === 0 || positionals.some((part) => name.includes(part)),
).map((canary) => (kind === undefined ? canary : { ...canary, days: kind }));
let done = 0;
const matrix = await matrixOf(chosen, { count: Number(values.days), seconds: Number(values.seconds) }, (row) => {
  process.stderr.write(`${++done} of ${chosen.length}\n`);
  if (values.json) process.stdout.write(`${JSON.stringify(row)}\n`);
});
process.stdout.write(values.json ? `${JSON.stringify(matrix.noise)}\n` : printed(matrix));
