// The laws of the journal over arbitrary lives of a device: KEP-1 (power), KEP-4 (bad pages), CEL-1 (held).
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { GEOMETRY } from '../../sim/flash/geometry.js';
import { EARLIER, type Earlier, LIFE, LIFE_WITH_BAD_PAGES, Life, type LifeEvent } from './arbitrary-life.js';

vi.setConfig({ testTimeout: 120_000 });

const RUNS = 200;
function live(seed: number, earlier: Earlier, events: readonly LifeEvent[]): Life {
  const life = new Life(seed, earlier);
  for (const event of events) life.happen(event);
  return life;
}

describe('an arbitrary life', () => {
  it('keeps every change that it said was kept, in order, and nothing else, whenever power fails', () => {
    let cuts = 0;
    fc.assert(
      fc.property(fc.nat(), EARLIER, LIFE, (seed, earlier, events) => {
        const life = live(seed, earlier, events);
        cuts += life.cuts;
        life.calm();
        expect(life.model.pending.length).toBe(0);
        expect(life.journal.failed()).toBe(false);
        expect(life.journal.counts().retired).toBe(0);
      }),
      { numRuns: RUNS },
    );
    expect(cuts).toBeGreaterThan(RUNS / 2);
  });

  it('does so with two bad pages, and does not fail', () => {
    fc.assert(
      fc.property(fc.nat(), EARLIER, fc.nat(15), fc.nat(15), LIFE, (seed, earlier, one, other, events) => {
        const bad: LifeEvent[] = [
          { do: 'spoil', page: one },
          { do: 'spoil', page: other },
        ];
        const life = live(seed, earlier, [...bad, ...events]);
        life.calm();
        life.happen({ do: 'work', changes: 2400 });
        life.calm();
        expect(life.model.pending.length).toBe(0);
        expect(life.journal.failed()).toBe(false);
        expect(life.journal.counts().retired).toBe(new Set([one, other]).size);
      }),
      { numRuns: RUNS / 2 },
    );
  });

  it('throws nothing and loses nothing however many pages go bad', () => {
    let failed = 0;
    fc.assert(
      fc.property(fc.nat(), EARLIER, LIFE_WITH_BAD_PAGES, (seed, earlier, events) => {
        const life = live(seed, earlier, events);
        life.happen({ do: 'work', changes: 300 });
        if (life.journal.failed()) failed += 1;
        else life.calm();
      }),
      { numRuns: RUNS },
    );
    expect(failed).toBeGreaterThan(0);
  });

  it('lets no operation start while it is held', () => {
    fc.assert(
      fc.property(fc.nat(), EARLIER, LIFE, (seed, earlier, events) => {
        const life = live(seed, earlier, events);
        life.happen({ do: 'hold', on: true });
        const { steps } = life.flash;
        for (const event of events)
          if (event.do !== 'hold' && event.do !== 'restart' && event.do !== 'fail') life.happen(event);
        expect(life.flash.steps).toBe(steps);
        life.calm();
        expect(life.model.pending.length).toBe(0);
      }),
      { numRuns: RUNS / 4 },
    );
  });
});

it('has as many pages as the test spoils', () => {
  expect(GEOMETRY.pages).toBe(16);
});
