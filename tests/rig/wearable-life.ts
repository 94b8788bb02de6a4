// A few minutes in the life of a wearable in which it writes everything that it ever writes: keys, ledger, reports, alerts and the
// ends of shifts. Its power may fail on the way; it comes back before the next thing that its wearer does.
import type { FlashState } from '../../sim/flash/flash.js';
import { CounterRig, REST_MM, WORK_MM } from './counter-rig.js';
import { MINUTE } from './day.js';
import { touch } from './pair-up.js';
import { Site } from './site.js';
import { WearableRig } from './wearable-rig.js';

/** Two seconds of a tool at 5.0 m/s² pass the first level, ten the second. */
const LEVELS = [
  { level: 'notice', points: 0.02, compare: 'reached' },
  { level: 'action', points: 0.1, compare: 'reached' },
] as const;

export class WearableLife {
  readonly site = new Site();
  readonly saw = new CounterRig(this.site, 1, 50);
  readonly drill = new CounterRig(this.site, 2, 50);
  readonly edda: WearableRig;
  private readonly steps = [
    () => this.pair(this.saw),
    () => this.saw.work(7_000),
    () => this.pair(this.drill),
    () => this.drill.windows(WORK_MM, REST_MM),
    () => this.edda.tap(),
    () => this.drill.work(12_000),
    () => this.edda.tap(),
    () => this.pair(this.saw),
    () => this.saw.work(3_000),
    () => this.edda.close(),
    () => this.site.runFor(MINUTE),
    () => this.pair(this.drill),
    () => this.drill.work(2_000),
  ];

  constructor(flash: FlashState) {
    this.edda = new WearableRig(this.site, 11, LEVELS, structuredClone(flash));
  }

  live(): void {
    for (const step of this.steps) {
      if (!this.edda.isOn) this.edda.powerUp();
      step();
    }
    if (!this.edda.isOn) this.edda.powerUp();
  }

  /** Shifts are closed, and everything is told. */
  finish(): void {
    this.edda.close();
    this.site.runFor(3 * MINUTE);
  }

  /** What the counters have counted in her sessions, and what is in her ledger, in u. */
  counted(): number {
    return [this.saw, this.drill].reduce((sum, { counted }) => sum + sessionsOf(counted), 0);
  }

  charged(): number {
    return this.edda.observe().reduce((sum, { dose }) => sum + dose, 0);
  }

  private pair(counter: CounterRig): void {
    const { edda, site } = this;
    site.runTo(Math.ceil(site.nowMs / 100) * 100);
    touch(counter, edda);
    site.runFor(100);
    edda.tap();
    counter.push();
    site.runFor(4_900);
  }
}

function sessionsOf(counted: ReadonlyMap<number, { readonly dose: number }>): number {
  return [...counted].reduce((sum, [session, { dose }]) => sum + (session === 0 ? 0 : dose), 0);
}
