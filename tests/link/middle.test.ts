// PAI-2: a man in the middle of a pairing has one guess in 10 000, and each rule of README.md is what keeps him from more.
import { describe, expect, test } from 'vitest';
import { RandomStream } from '../../sim/kernel/random.js';
import { attackPairings } from './middle.js';
import { CounterSide, type Rule, WearableSide } from './pairing-sides.js';

const IDS = { counter: 3, wearable: 9 };
/** Hashes by the hundred thousand take their time where others use the machine too. */
const PATIENCE = { timeout: 60_000 };

test('with nobody in the middle both sides show the same digits', () => {
  const random = RandomStream.named(1, 'nobody');
  for (let paired = 0; paired < 100; paired++) {
    const counter = new CounterSide(random, IDS, { link: 77, session: 2 }, null);
    const wearable = new WearableSide(random, IDS, null);
    const answer = counter.receive(wearable.hello())!;
    const nonce = wearable.receive(answer)!;
    expect([counter.digits, wearable.digits]).toEqual([null, null]);
    const reveal = counter.receive(nonce)!;
    wearable.receive(reveal);
    expect(counter.digits).not.toBeNull();
    expect(wearable.digits).toBe(counter.digits);
    // Whatever is said again is answered the same.
    expect(counter.receive(wearable.hello())).toEqual(answer);
    expect(counter.receive(nonce)).toEqual(reveal);
  }
});

test('of 20 000 attacks about two succeed, each with the same digits on both', PATIENCE, () => {
  const { attacks, endedByWearable, successes } = attackPairings({ seed: 2026, attacks: 20_000, tries: 2 });
  // Two are expected; more than nine come by chance once in 20 000 seeds (Poisson).
  expect(successes.length).toBeLessThanOrEqual(9);
  for (const { onCounter, onWearable } of successes) expect(onCounter).toBe(onWearable);
  expect(attacks['wearable first']).toBeGreaterThan(9_500);
  expect(attacks['counter first']).toBeGreaterThan(9_500);
  // He breaks off where his guess was wrong and he reveals another nonce: all but about one in 10 000.
  expect(endedByWearable).toBeGreaterThan(attacks['counter first'] - 9);
});

describe('a rule less, and he wins', PATIENCE, () => {
  test.each<[Rule, 'wearable first' | 'counter first']>([
    ['first nonce', 'wearable first'],
    ['first hello', 'wearable first'],
    ['first answer', 'counter first'],
    ['commitment', 'counter first'],
  ])('%s', (without, order) => {
    const { attacks, successes } = attackPairings({ seed: 5, attacks: 10, tries: 100_000, without });
    expect(attacks[order]).toBeGreaterThan(0);
    expect(successes.map((success) => success.order)).toEqual(new Array(attacks[order]).fill(order));
  });
});
