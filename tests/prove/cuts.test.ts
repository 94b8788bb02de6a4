// KEP-1, WEA-5: power fails at every byte that a device writes, and again at every byte of each recovery. The same on a day with four
// hours of trigger time, a handover and page erases is `npm run cuts`.
import { expect, test } from 'vitest';
import { cutEverywhere } from '../../src/prove/cuts.js';
import { cutDay } from './cut-day.js';

test('power may fail at every byte of a day with a handover: at most 10 s are lost, and nothing is counted twice', () => {
  const found = cutEverywhere(cutDay(6), 'saw', { recoveries: false }, { keys: false });
  process.stdout.write(`cut at ${found.cuts} bytes, at most ${found.mostLost} windows lost\n`);
  expect(found.broken).toEqual([]);
  expect(found.cuts).toBeGreaterThan(2000);
}, 120_000);

test('and so it may at every byte that a wearable writes', () => {
  const found = cutEverywhere(cutDay(6), 'Edda', { recoveries: false }, { keys: false });
  process.stdout.write(`cut at ${found.cuts} bytes of a wearable, at most ${found.mostLost} windows lost\n`);
  expect(found.broken).toEqual([]);
  expect(found.cuts).toBeGreaterThan(1500);
}, 120_000);

test('and again at every byte of each recovery', () => {
  const found = cutEverywhere(cutDay(1), 'saw', { recoveries: true }, { keys: false });
  process.stdout.write(
    `cut at ${found.cuts} bytes, and at ${found.again} of the recoveries, at most ${found.mostLost} windows lost\n`,
  );
  expect(found.broken).toEqual([]);
  expect(found.again).toBeGreaterThan(20_000);
}, 120_000);
