// counterproof check: what it says of a run that does not hold, beside its verdicts.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { checkFiles } from '../../src/cli/check/check-files.js';
import { textOf } from '../../src/cli/check/text.js';

const DAY = `title: Edda leaves while she should work
regime: eu-2002-44
from: 07:00
until: 09:00
tools: {breaker: {hand: percussive, magnitude: 12.0, keyed: 12.0}}
workers: {Edda: {}}
day:
  - {at: 07:05, pair: breaker, with: Edda}
  - {at: 07:20, leave: Edda}
  - {at: 07:30, work: breaker, by: Edda, bursts: 14, of: 12s, every: 1m}
expect:
  - {at: end, points: Edda, is: 13.4}
`;

it('names the events that came to nothing, which may be why an expectation does not hold', () => {
  const file = join(mkdtempSync(join(tmpdir(), 'counterproof-')), 'day.yaml');
  writeFileSync(file, DAY);
  const [checked] = [...checkFiles([file])].map(textOf);
  expect(checked).toContain('does not hold');
  // She has no points from the start, and the first event that is shown is a tally of 08:58:04: so the command shows something.
  expect(checked).toContain('around it #460 08:58:04.017 breaker air.tally');
  expect(checked).toMatch(/again {5}npx counterproof trace \S+day\.yaml --from 08:57:34 --until 09:00:30/);
  expect(checked).toContain('14 events of this day came to nothing, first run at 07:30:00 (Edda): out of reach');
});
