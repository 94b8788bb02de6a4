// Puts what happens on the bench into a trace, with the bench's time and the cause of the moment.
import type { Fields, Kind } from '../trace/kinds.js';
import type { Recorder } from '../trace/recorder.js';
import type { World } from './world.js';

export class Tracer {
  constructor(
    readonly recorder: Recorder,
    private readonly world: World,
  ) {}

  /** Appends an event at the present moment and returns its n. */
  add<K extends Kind>(by: string, kind: K, fields: Fields<K>): number {
    return this.recorder.add(this.world.clock.nowMs, by, kind, this.world.cause, fields);
  }
}
