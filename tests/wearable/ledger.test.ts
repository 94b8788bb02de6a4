// TAL-3, WEA-1, PAI-5: merging keeps the largest, in any order and however often; the shift is the sum; 32 counters fit.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { LedgerEntry } from '../../src/port/inner.js';
import { merge } from '../../src/wearable/ledger.js';
import { readWearableRecord } from '../../src/wearable/record.js';
import { expectMergeLaws, expectSameInAnyOrder } from '../laws/merge.js';
import { withSessions } from '../rig/many-sessions.js';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

const sums = fc.record({
  dose: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.nat({ max: 2 ** 52 - 1 })),
  triggerWindows: fc.nat(9),
  unratedWindows: fc.nat(9),
});

type Sums = Pick<LedgerEntry, 'dose' | 'triggerWindows' | 'unratedWindows'>;

function merged(one: Sums, other: Sums): Sums {
  const entry = { counter: 1, session: 1, shift: 1, ...one };
  merge(entry, other);
  const { dose, triggerWindows, unratedWindows } = entry;
  return { dose, triggerWindows, unratedWindows };
}

test('merging is idempotent, commutative and associative', () => {
  expectMergeLaws(sums, merged);
});

test('merging says whether the entry grew', () => {
  fc.assert(
    fc.property(sums, sums, (one, other) => {
      const entry = { counter: 1, session: 1, shift: 1, ...one };
      expect(merge(entry, other)).toBe(JSON.stringify(merged(one, other)) !== JSON.stringify(one));
    }),
  );
});

test('the ledger never shrinks', () => {
  fc.assert(
    fc.property(sums, sums, (one, other) => {
      expect(merged(one, other).dose).toBeGreaterThanOrEqual(one.dose);
      expect(merged(one, other).triggerWindows).toBeGreaterThanOrEqual(one.triggerWindows);
    }),
  );
});

/** Tallies of three counters, each with its own sequence. */
const tallies = fc.record({
  counter: fc.integer({ min: 1, max: 3 }),
  sequence: fc.integer({ min: 1, max: 20 }),
});

test('TAL-3: tallies lost, late, doubled and reordered come to the same shift in the end', () => {
  expectSameInAnyOrder(tallies, (news) => {
    const edda = new WearableRig(new Site(), 11);
    const sessions = [1, 2, 3].map((counter) => toldSession(edda, counter));
    for (const { counter, sequence } of news) {
      // A cumulative sum: what a later tally tells is never less.
      sessions[counter - 1]!.tell({
        sequence: sequence + 1,
        windows: sequence,
        unrated: sequence >> 1,
        dose: sequence * 777,
      });
    }
    const { dose, unratedWindows } = edda.observe()[0]!;
    return { dose, unratedWindows, display: edda.display.value };
  });
});

test('WEA-1: the dose of the shift is the sum over the ledger', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 3 }), fc.nat(1_000_000_000)), { maxLength: 12 }),
      (news) => {
        const edda = new WearableRig(new Site(), 11);
        const sessions = [1, 2, 3].map((counter) => toldSession(edda, counter));
        const most = [0, 0, 0];
        for (const [counter, dose] of news) {
          sessions[counter - 1]!.tell({ dose });
          most[counter - 1] = Math.max(most[counter - 1]!, dose);
        }
        expect(edda.dose).toBe(most[0]! + most[1]! + most[2]!);
      },
    ),
    { numRuns: 50 },
  );
});

test('ACC-2: sums of a shift stand at the ends of their fields, also after a power failure, and can be read out', () => {
  const edda = new WearableRig(new Site(), 11);
  const full = { dose: 2 ** 52 - 1, windows: 2 ** 28 - 1, unrated: 2 ** 28 - 1, flags: ['saturated'] } as const;
  const sums = { dose: full.dose, triggerWindows: full.windows, unratedWindows: full.unrated };
  const sessions = [1, 2, 3].map((counter) => toldSession(edda, counter));
  // After a restart nobody knows how long they have run.
  edda.cutPower();
  edda.powerUp();
  for (const told of sessions) told.hear(told.make(full));
  expect(edda.observe()[0]).toMatchObject(sums);
  expect(edda.display.icons).toContain('incomplete');
  edda.cutPower();
  edda.powerUp();
  expect(edda.observe()[0]).toMatchObject(sums);
  edda.readout();
  const record = readWearableRecord(edda.records[0]!);
  expect(record).toMatchObject({ shifts: [sums], sessions: [sums, sums, sums] });
});

test('PAI-5: a wearable holds 32 counters; the next touch is refused on both, and shown', () => {
  const site = new Site();
  const edda = new WearableRig(site, 99);
  for (let counter = 1; counter <= 32; counter++) toldSession(edda, counter).tell({ dose: 1 });
  edda.touch(33);
  expect(edda.display.screen).toBe('refused-full');
  expect(edda.sent('refuse').at(-1)).toMatchObject({ counter: 33, reason: 'full' });
  site.runFor(5_000);
  expect(edda.display).toMatchObject({ screen: 'points' });
  expect(edda.dose).toBe(32);
  // A counter that it holds can be paired again.
  new ToldSession(edda, 7, 900, 2).tell({ dose: 8 });
  expect(edda.dose).toBe(40);
});

test('PAI-5: sealed sessions of a shift that is over make room, sessions still to be told do not', () => {
  const edda = new WearableRig(new Site(), 99);
  const sessions = Array.from({ length: 32 }, (_, index) => toldSession(edda, index + 1));
  edda.close();
  edda.touch(33);
  expect(edda.display.screen).toBe('refused-full');
  edda.site.runFor(5_000);
  sessions[4]!.tell({ dose: 5, flags: ['sealed'] });
  toldSession(edda, 33).tell({ dose: 6 });
  expect(edda.observe().map(({ dose }) => dose)).toEqual([5, 6]);
  edda.site.runFor(5_000);
  edda.touch(34);
  expect(edda.display.screen).toBe('refused-full');
});

test('PAI-5: a delivered session whose counter has not heard so is still known, whatever was paired since', () => {
  const edda = new WearableRig(new Site(), 99);
  const first = toldSession(edda, 1);
  const last = first.tell({ dose: 5, flags: ['sealed'] });
  for (let counter = 2; counter <= 40; counter++) {
    edda.close();
    toldSession(edda, counter).tell({ flags: ['sealed'] });
  }
  first.hear(last);
  expect(edda.sent('ack').at(-1)).toMatchObject({ link: first.link, highest: last.message.sequence });
  expect(edda.refused).toEqual([]);
});

test('keys that no counter ever used make room', () => {
  const edda = new WearableRig(new Site(), 99);
  for (let counter = 1; counter <= 40; counter++) new ToldSession(edda, counter, counter);
  expect(edda.display.screen).toBe('ready');
  for (let counter = 1; counter <= 31; counter++) toldSession(edda, 100 + counter);
  toldSession(edda, 200).tell({ dose: 1 });
  expect(edda.dose).toBe(1);
});

test('PAI-5: 256 sessions are kept; the next pairing is refused where all of them are of the open shift', () => {
  const { edda, sessions } = withSessions(0);
  edda.touch(1);
  expect(edda.display.screen).toBe('refused-full');
  expect(edda.dose).toBe(256);
  sessions[0]!.tell({ sequence: 2, flags: ['sealed'] });
  expect(edda.refused).toEqual([]);
});

test('PAI-5: of 256 sessions the oldest of a shift that is over makes room; its dose stays in its shift', () => {
  const { edda, sessions } = withSessions(200);
  const doses = () => edda.observe().map(({ dose }) => dose);
  expect(doses()).toEqual([199, 57]);
  const last = new ToldSession(edda, 1, 2000, 257);
  last.tell({ dose: 7 });
  expect(doses()).toEqual([199, 64]);
  sessions[0]!.tell({ dose: 1000, flags: ['sealed'] });
  expect(edda.refused).toEqual(['foreign']);
  sessions[1]!.tell({ dose: 2, flags: ['sealed'] });
  expect(doses()).toEqual([200, 64]);
  edda.cutPower();
  edda.powerUp();
  expect(doses()).toEqual([200, 64]);
  last.tell({ dose: 8 });
  expect(doses()).toEqual([200, 65]);
});
