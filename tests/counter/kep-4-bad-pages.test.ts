// KEP-4: writes are verified and bad pages retired, and nobody notices; a journal that cannot keep anything is a shown fault.
import { expect, test } from 'vitest';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { newCrew, SAW_SECOND } from '../rig/crew.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

const PAGES = Array.from({ length: 16 }, (_, page) => page);

test.each(['saw', 'edda'] as const)('pages of %s that go bad one after the other lose nothing', (name) => {
  const crew = newCrew();
  const { site, saw, edda } = crew;
  pairUp(saw, edda);
  for (const page of [3, 9, 14]) {
    crew[name].flash.spoil(page);
    saw.work(HOUR);
  }
  expect(edda.dose).toBe(3 * 3_600 * SAW_SECOND);
  crew[name].cutPower();
  crew[name].powerUp();
  expect(crew[name].recovered.at(-1)!.retired).toBe(3);
  site.runFor(2 * MINUTE);
  expect(edda.dose).toBe(3 * 3_600 * SAW_SECOND);
  expect([saw, edda].flatMap(({ display }) => display.icons)).not.toContain('journal');
});

test('a counter whose journal cannot keep anything shows it, and its tallies say so', () => {
  const { saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(10_000);
  for (const page of PAGES) saw.flash.spoil(page);
  saw.work(2 * HOUR);
  expect(saw.display.icons).toContain('journal');
  expect(saw.sent('tally').at(-1)!.flags & TALLY_FLAGS.journalFault).toBe(TALLY_FLAGS.journalFault);
  expect(edda.incomplete).toEqual([{ shift: 1, counter: saw.id, why: 'journal fault' }]);
  // TAL-2: what it cannot keep it does not tell.
  expect(edda.dose).toBe(saw.kept.get(1)!.dose);
});

test('a wearable whose journal cannot keep anything shows it, and acknowledges nothing that it would forget', () => {
  const { site, saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(10_000);
  for (const page of PAGES) edda.flash.spoil(page);
  saw.work(2 * HOUR);
  expect(edda.display.icons).toContain('journal');
  edda.close();
  site.runFor(10 * MINUTE);
  edda.cutPower();
  edda.powerUp();
  const forgotten = saw.counted.get(1)!.dose - edda.dose;
  expect(forgotten).toBeGreaterThan(0);
  expect(saw.sessions).not.toContain('delivered 1');
});
