// Somebody in the middle of a pairing is seen by the digits, which differ (PAI-2). That they agree by chance, once in 10 000
// times, is what is left of the risk; even then the wearable charges nothing that it cannot open.
import { describe, expect, it } from 'vitest';
import { attack, MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

describe('somebody in the middle', () => {
  const events = traceOf(
    smallDay([
      attack(0, 'middle', 'saw', 'Edda', MINUTE_MS),
      pair(SECOND_MS, 'saw', 'Edda'),
      pair(SECOND_MS, 'breaker', 'Bram'),
      pair(30 * SECOND_MS, 'saw', 'Edda'),
      pair(70 * SECOND_MS, 'saw', 'Edda'),
    ]),
  );
  const digitsOf = (by: string) => ofKind(events, 'shown.display', by).filter(({ screen }) => screen === 'digits');

  it('lets both show digits, and they are not the same', () => {
    const [saw, edda] = [digitsOf('saw'), digitsOf('Edda')];
    expect([saw.length, edda.length]).toEqual([3, 3]);
    expect([0, 1, 2].map((time) => saw[time]!.value === edda[time]!.value)).toEqual([false, false, true]);
    expect(ofKind(events, 'hand.nothing', 'saw').map(({ at, verb, reason }) => [at, verb, reason])).toEqual([
      [4 * SECOND_MS, 'pair', 'digits differ'],
      [33 * SECOND_MS, 'pair', 'digits differ'],
    ]);
  });

  it('stops whatever the two say to each other in a pairing, and says something else', () => {
    const sent = ofKind(events, 'air.pairing').filter(({ at, by }) => at < MINUTE_MS && ['saw', 'Edda'].includes(by));
    const stopped = ofKind(events, 'air.lost').filter(({ reason }) => reason === 'intercepted');
    expect(stopped.map(({ cause }) => cause)).toEqual(sent.map(({ n }) => n));
    const injected = ofKind(events, 'air.injected');
    expect(injected).toHaveLength(sent.length);
    expect(injected.every(({ how, bytes }) => how === 'middle' && sent.every((one) => one.bytes !== bytes))).toBe(true);
  });

  it('opens no session, and is gone when the attack is over', () => {
    const opened = ofKind(events, 'inner.session').filter(({ what }) => what === 'opened');
    expect(opened.map(({ by, with: worker }) => [by, worker])).toEqual([
      ['breaker', 'Bram'],
      ['saw', 'Edda'],
    ]);
    expect(opened[1]!.at).toBeGreaterThan(70 * SECOND_MS);
  });
});

describe('somebody in the middle whose digits agree by chance', () => {
  // Found by trying seeds from 1 on; where pairings come to draw otherwise, another one has to be found.
  const seed = 30_583;
  const events = traceOf(
    smallDay(
      [attack(0, 'middle', 'saw', 'Edda', MINUTE_MS), pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', 9000)],
      {
        seed,
      },
    ),
    { keys: false },
  );

  it('is seen by nobody', () => {
    expect(ofKind(events, 'hand.done')).toMatchObject([{ verb: 'pair' }]);
    expect(ofKind(events, 'inner.session')).toMatchObject([{ by: 'saw', what: 'opened', with: 'Edda' }]);
  });

  it('still cannot make the wearable take a tally: its counter seals them with another key', () => {
    const tallies = ofKind(events, 'air.tally');
    expect(tallies.length).toBeGreaterThan(5);
    const refused = ofKind(events, 'air.refused', 'Edda');
    expect(refused).toHaveLength(tallies.length);
    expect(new Set(refused.map(({ reason }) => reason))).toEqual(new Set(['tag']));
    expect(ofKind(events, 'inner.ledger')).toEqual([]);
    // Nobody is charged, and the counter keeps it: its tallies are never acknowledged (PAI-5).
    expect(ofKind(events, 'inner.count').at(-1)).toMatchObject({ session: 1, triggerWindows: 90 });
  });
});
