// The random streams of a day: one for each device, and for the air and an attacker between each counter and wearable. They
// are named after tools and workers, so that another event in the day shifts none of them. A flash has its own.
import { RandomStream } from '../../sim/kernel/random.js';
import type { Day } from '../scenario/day.js';

export interface Randomness {
  /** By identity - 1: what a device draws. */
  readonly devices: readonly RandomStream[];
  /** By tool, then by worker. */
  readonly air: readonly (readonly RandomStream[])[];
  /** By tool, then by worker: what an attacker between the two draws. */
  readonly attacks: readonly (readonly RandomStream[])[];
}

export function randomnessOf({ seed, tools, workers }: Day): Randomness {
  return {
    devices: [...tools, ...workers].map(({ name }) => RandomStream.named(seed, `device ${name}`)),
    attacks: tools.map((tool) =>
      workers.map((worker) => RandomStream.named(seed, `attack ${tool.name} / ${worker.name}`)),
    ),
    air: tools.map((tool) => workers.map((worker) => RandomStream.named(seed, `air ${tool.name} / ${worker.name}`))),
  };
}

export function copyRandomness({ devices, air, attacks }: Randomness): Randomness {
  return {
    devices: devices.map(copyOf),
    air: air.map((row) => row.map(copyOf)),
    attacks: attacks.map((row) => row.map(copyOf)),
  };
}

function copyOf(stream: RandomStream): RandomStream {
  return RandomStream.fromState(stream.state());
}
