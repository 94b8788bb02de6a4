// KEP-1: power is cut at every step of a history, and again at every step of what follows a cut. See cuts.ts.
import { expect, it, vi } from 'vitest';
import { ERASE_STEPS, FLASH_BYTES } from '../../sim/flash/geometry.js';
import { cutEverywhere, fillingHistory } from './cuts.js';

vi.setConfig({ testTimeout: 600_000 });

it('keeps all that was kept at every cut of a history that fills the ring more than twice', () => {
  const told = cutEverywhere(fillingHistory(2.2 * FLASH_BYTES, 32), { from: 0, to: Infinity, again: false });
  expect(told.cuts).toBe(told.steps);
  expect(Math.min(...told.erases)).toBeGreaterThanOrEqual(1);
  expect(told.cuts).toBeGreaterThan(2 * FLASH_BYTES);
  // Both happen: a change whose last bits were there, and one that left nothing.
  expect(told.made).toBeGreaterThan(100);
  expect(told.unmade).toBeGreaterThan(100);
});

it('does so where power is cut again at every step of the first change after each cut, around the erase of a page', () => {
  const history = fillingHistory(1.6 * FLASH_BYTES, 4);
  const { eraseSteps } = cutEverywhere(history, { from: 0, to: 0, again: false });
  const erased = eraseSteps.at(-1)!;
  const told = cutEverywhere(history, { from: erased - 600, to: erased + ERASE_STEPS + 100, again: true });
  expect(told.cuts).toBe(600 + ERASE_STEPS + 100);
  expect(told.cutsAfterCuts).toBeGreaterThan(20 * told.cuts);
});
