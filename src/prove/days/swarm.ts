// Which faults and features a random day has: each day draws its own, so that some days have only one of them and many of it,
// and combinations come up that a day with everything in it would bury.
import fc from 'fast-check';

/** Beside work in the hand, which every day has. */
export const FEATURES = [
  'magnitudes are keyed in',
  'tools change hands',
  'people leave',
  'gestures',
  'sensor faults',
  'frames are lost',
  'frames are late',
  'bits flip',
  'power fails',
  'power fails in a write',
  'power fails in an erase',
  'cells run low',
  'cells are exchanged',
  'clocks are wrong',
  'pages go bad',
  'frames are replayed',
  'frames are altered',
  'frames are forged',
  'floods',
  'somebody in the middle',
] as const;

export type Feature = (typeof FEATURES)[number];

export type Swarm = ReadonlySet<Feature>;

/** Any set of features; every one of them is in half of the days. */
export const swarm: fc.Arbitrary<Swarm> = fc.subarray([...FEATURES]).map((features) => new Set(features));
