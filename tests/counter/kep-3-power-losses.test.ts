// KEP-3: the number of power losses is in the next tally's report.
import { beforeEach, expect, test } from 'vitest';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

function losePower(times: number): void {
  for (let lost = 0; lost < times; lost++) {
    saw.cutPower();
    site.runFor(500);
    saw.powerUp();
  }
}

test('the first start is no loss: nothing is reported', () => {
  pairUp(saw, edda);
  saw.work(10_000, MINUTE);
  expect(saw.sent('report')).toEqual([]);
});

test('losses with a session open are in the report beside the next tally, which is flagged', () => {
  pairUp(saw, edda);
  losePower(3);
  site.runFor(100);
  expect(saw.sent('report').at(-1)).toMatchObject({ powerLosses: 3 });
  expect(saw.sent('tally').at(-1)!.flags).toBe(TALLY_FLAGS.powerLost);
  expect(edda.incomplete).toEqual([{ shift: 1, counter: saw.id, why: 'power lost' }]);
  expect(edda.display.icons).toContain('incomplete');
});

test('losses with no session open are reported to whoever pairs next, whose session has lost nothing', () => {
  losePower(2);
  pairUp(saw, edda);
  expect(saw.sent('report').at(-1)).toMatchObject({ powerLosses: 2 });
  expect(saw.sent('tally').at(-1)!.flags).toBe(0);
  expect(edda.incomplete).toEqual([]);
});

test('the number only grows, and a session of another wearer is told it too', () => {
  pairUp(saw, edda);
  losePower(1);
  site.runFor(MINUTE);
  losePower(1);
  site.runFor(MINUTE);
  pairUp(saw, bram);
  const losses = saw.sent('report').map(({ powerLosses }) => powerLosses);
  expect(losses).toEqual([...losses].sort((a, b) => a - b));
  expect(losses.at(-1)).toBe(2);
  expect(saw.sent('tally').at(-1)!.flags).toBe(0);
});

test('a loss is told until its report is acknowledged, and no longer', () => {
  pairUp(saw, edda);
  site.air = () => [];
  losePower(1);
  site.runFor(3 * MINUTE);
  expect(saw.sent('report')).toHaveLength(4);
  site.air = () => [5];
  site.runFor(5 * MINUTE);
  expect(saw.sent('report')).toHaveLength(5);
});
