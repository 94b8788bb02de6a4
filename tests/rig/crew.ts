// The usual cast of a test with both devices: one counter set to 5.0 m/s², and the wearables of two workers.
import { CounterRig } from './counter-rig.js';
import { type Air, Site } from './site.js';
import { WearableRig } from './wearable-rig.js';

export interface Crew {
  readonly site: Site;
  readonly saw: CounterRig;
  readonly edda: WearableRig;
  readonly bram: WearableRig;
}

export function newCrew(): Crew {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  return { site, saw, edda: new WearableRig(site, 11), bram: new WearableRig(site, 12) };
}

/** Dose of one second of the saw, in u. */
export const SAW_SECOND = 1000 * 2500;

/** An air in which nothing reaches or leaves these wearables. */
export function away(...wearables: readonly { readonly id: number }[]): Air {
  const ids = wearables.map(({ id }) => id);
  return ({ from, to }) => (ids.includes(from) || ids.includes(to) ? [] : [5]);
}
