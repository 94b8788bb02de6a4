// counterproof trace: what it refuses instead of printing nothing.
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { answerTrace } from '../../src/cli/trace/answer.js';

/** 08:00 to 10:30. */
const FILE = fileURLToPath(new URL('../../scenarios/store-of-sessions-full.yaml', import.meta.url));

it.each([
  ['a stretch outside the day', { from: '12:00' }, 'outside the day, which goes from 08:00:00 to 10:30:00'],
  ['a stretch that ends before it begins', { from: '10:00', until: '09:00' }, '--from is not before --until'],
  ['a time that is none', { from: '9 o clock' }, 'is no time of day'],
  ['a hash of a stretch', { hash: true, from: '09:00' }, '--hash is of the whole trace'],
])('refuses %s', (_, options, sentence) => {
  expect(answerTrace(FILE, options)).toMatchObject({ refusal: expect.stringContaining(sentence) });
});

it('prints the events of a stretch, its end left out, also beyond the end of the day', () => {
  const answer = answerTrace(FILE, { from: '10:29', until: '10:31' });
  const lines = 'pieces' in answer ? [...answer.pieces].join('').trimEnd().split('\n') : [];
  const times = lines.map((line) => (JSON.parse(line) as { at: number }).at);
  expect(lines.length).toBeGreaterThan(2);
  expect(Math.min(...times)).toBeGreaterThanOrEqual(8_940_000);
});
