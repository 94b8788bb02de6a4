// Pairing as a person does it: touch, compare, push, tap.
import type { CounterRig } from './counter-rig.js';
import type { WearableRig } from './wearable-rig.js';

/** Counter and wearable touch. */
export function touch(counter: CounterRig, wearable: WearableRig): void {
  counter.touch(wearable.id);
  wearable.touch(counter.id);
}

/** A whole pairing, in one second. Throws where it does not come to the same digits on both. */
export function pairUp(counter: CounterRig, wearable: WearableRig): void {
  const { site } = counter;
  const endMs = site.nowMs + 1000;
  touch(counter, wearable);
  site.runFor(100);
  const [here, there] = [counter.display, wearable.display];
  if (here.screen !== 'digits' || there.screen !== 'digits' || here.value !== there.value) {
    throw new Error(`no pairing: counter shows ${here.screen}, wearable ${there.screen}`);
  }
  wearable.tap();
  counter.push();
  site.runTo(endMs);
}
