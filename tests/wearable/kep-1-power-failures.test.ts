// WEA-5, KEP-1 at the whole wearable: power may fail anywhere in a write or an erase, and while it recovers. What a counter was
// told is kept is kept, the rest is told again: in the end every u is charged, once.
import { expect, test } from 'vitest';
import { WearableLife } from '../rig/wearable-life.js';
import { wornFlash } from '../rig/worn-flash.js';

const PATIENCE_MS = 60_000;

/** A flash on which the life begins an erase in its midst. */
const WORN = wornFlash(300);

function expectWhole(life: WearableLife): void {
  life.finish();
  expect(life.charged()).toBe(life.counted());
  for (const counter of [life.saw, life.drill]) {
    expect(counter.states.get('sealed')).toBe('none');
    expect(counter.observe().session).toBe(0);
  }
  const called = new Set(life.edda.alerts.map(({ level }) => level));
  for (const { dose } of life.edda.observe()) if (dose >= 18_000_000) expect(called).toContain('action');
  life.edda.cutPower();
  life.edda.powerUp();
  expect(life.charged()).toBe(life.counted());
}

function steps(): number {
  const life = new WearableLife(WORN);
  const before = life.edda.flash.steps;
  life.live();
  return life.edda.flash.steps - before;
}

test('uncut, everything is charged', () => {
  const life = new WearableLife(WORN);
  life.live();
  expect(life.edda.flash.erases.reduce((sum, erases) => sum + erases, 0)).toBe(2);
  expect(life.edda.observe().map(({ dose }) => dose / 2_500_000)).toEqual([22, 2]);
  expect(life.edda.alerts.map(({ level }) => level)).toEqual(['notice', 'action', 'notice']);
  expectWhole(life);
});

test(
  'a failure at any byte of any write, and at any step of an erase',
  () => {
    const whole = steps();
    expect(whole).toBeGreaterThan(500);
    for (let at = 0; at < whole; at += 3) {
      const life = new WearableLife(WORN);
      life.edda.flash.failAfter(at);
      life.live();
      expect(life.edda.recovered).toHaveLength(2);
      expectWhole(life);
    }
  },
  PATIENCE_MS,
);

test(
  'a second failure not long after the first',
  () => {
    const whole = steps();
    for (let at = 1; at < whole; at += 13) {
      const life = new WearableLife(WORN);
      life.edda.flash.failAfter(at);
      life.live();
      life.edda.flash.failAfter(at % 97);
      life.live();
      expectWhole(life);
    }
  },
  PATIENCE_MS,
);

test(
  'a failure at any time, whatever is under way',
  () => {
    const whole = new WearableLife(WORN);
    whole.live();
    for (let atMs = 50; atMs < whole.site.nowMs; atMs += 530) {
      const life = new WearableLife(WORN);
      life.site.after(atMs, () => life.edda.cutPower());
      life.live();
      expectWhole(life);
    }
  },
  PATIENCE_MS,
);
