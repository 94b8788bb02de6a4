// An accept did not say which pairing it belonged to. One of an earlier pairing that came late, or was said again for its key,
// opened a session that the wearable knew nothing of: its dose was lost (PAI-1, PAI-3).
import { beforeEach, expect, test } from 'vitest';
import { CounterRig } from '../rig/counter-rig.js';
import { touch } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let saw: CounterRig;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  saw = new CounterRig(site, 1, 50);
  edda = new WearableRig(site, 11);
});

/** A pairing whose last message is lost, or takes so long. */
function lastMessageTakes(delaysMs: readonly number[]): void {
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'accept' ? delaysMs : [5]);
  touch(saw, edda);
  site.runFor(100);
  edda.tap();
  saw.push();
  site.runFor(40_000);
  site.air = () => [5];
}

test('an accept that comes in the middle of the next pairing opens nothing before the wearer has tapped', () => {
  lastMessageTakes([41_500]);
  expect(saw.sessions).toEqual([]);
  touch(saw, edda);
  site.runFor(100);
  saw.push();
  site.runFor(10_000);
  expect(saw.sessions).toEqual([]);
  edda.tap();
  site.runFor(2_000);
  saw.work(10_000);
  expect(edda.dose).toBe(10_000 * 2500);
});

test('the key of a lost pairing does not answer for the next one, which the wearable has refused', () => {
  lastMessageTakes([]);
  const carla = new ToldWearable(saw, edda.id);
  carla.touch();
  carla.hello();
  carla.sayNonce();
  saw.push();
  site.runFor(30_000);
  expect(saw.sessions).toEqual([]);
});
