// The same scenario gives the same trace in every process, time zone, language and folder; what reaches a trace changes its
// hash, and what is only said to a class does not.
import { tmpdir } from 'node:os';
import { describe, expect, test, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { hashTrace } from '../../src/trace/hash.js';
import { ROOT } from '../project/house.js';
import { counterproof, HANGS_AFTER_MS, type Surroundings } from './process.js';
import { read, SHIPPED } from './shipped.js';

vi.setConfig({ testTimeout: 2 * HANGS_AFTER_MS });

const lockDay = SHIPPED.find(({ name }) => name === 'lock-day.yaml')!;

/** What `counterproof trace lock-day.yaml --hash` prints in a process of its own. */
function hashInProcess(surroundings: Surroundings): string {
  const { code, out, err } = counterproof(['trace', lockDay.path, '--hash'], surroundings);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return out;
}

function hashOf(text: string) {
  const bench = Bench.open(read(text, lockDay.name).runs[0]!.day);
  bench.run();
  return hashTrace(bench.events);
}

/** The demo day with one piece of its text replaced, which must stand there once. */
function changed(piece: string, by: string): string {
  expect(lockDay.text.split(piece)).toHaveLength(2);
  return lockDay.text.replace(piece, by);
}

test('two processes agree, under another time zone and language and from another folder', () => {
  const { whole, outward } = hashOf(lockDay.text);
  const here = hashInProcess({ folder: ROOT, environment: { TZ: 'UTC', LANG: 'C', LC_ALL: 'C' } });
  const elsewhere = { TZ: 'Pacific/Kiritimati', LANG: 'ar_EG.UTF-8', LC_ALL: 'ar_EG.UTF-8' };
  expect(here).toBe(`whole    ${whole}\noutward  ${outward}\n`);
  expect(hashInProcess({ folder: tmpdir(), environment: elsewhere })).toBe(here);
});

describe('the hash', () => {
  const original = hashOf(lockDay.text);

  test.each([
    ['another seed', 'seed: 1\n', 'seed: 2\n'],
    ['0.1 m/s² more', 'percussive, magnitude: 12.0, keyed: 12.0', 'percussive, magnitude: 12.0, keyed: 12.1'],
    ['0.1 m/s² more at the handle', 'magnitude: 12.0, keyed: 12.0', 'magnitude: 12.1, keyed: 12.0'],
    ['100 ms more in a burst', 'bursts: 30, of: 30s', 'bursts: 30, of: 30100ms'],
  ])('is another one with %s', (_, piece, by) => {
    const hashes = hashOf(changed(piece, by));
    expect(hashes.whole).not.toBe(original.whole);
    expect(hashes.outward).not.toBe(original.outward);
  });

  test.each([
    ['another note', 'Nothing was lost.', 'Nothing at all was lost.'],
    ['another title', 'title: Three people', 'title: Four people'],
    ['another expectation', 'points: Ines, is: 18}', 'points: Ines, is: 19}'],
  ])('is the same with %s', (_, piece, by) => {
    expect(hashOf(changed(piece, by))).toEqual(original);
  });
});
