// All faults that the invariants are tried on, chosen from the brief without sight of the invariants.
import type { Canary } from './canary.js';
import { KEEPING } from './faults/keeping.js';
import { MAGNITUDE } from './faults/magnitude.js';
import { PAIRING } from './faults/pairing.js';
import { TALLIES } from './faults/tallies.js';
import { TRIGGER } from './faults/trigger.js';
import { WEARABLE } from './faults/wearable.js';

export const CANARIES: readonly Canary[] = [...MAGNITUDE, ...TRIGGER, ...KEEPING, ...PAIRING, ...TALLIES, ...WEARABLE];
