// A few minutes in the life of a counter in which it writes everything that it ever writes: nobody's dose, two workers' sessions
// one after the other, a short burst, a session's end, and nobody's dose again. Its power may fail on the way.
import type { FlashState } from '../../sim/flash/flash.js';
import { CounterRig } from './counter-rig.js';
import { MINUTE } from './day.js';
import { touch } from './pair-up.js';
import { Site } from './site.js';
import { WearableRig } from './wearable-rig.js';

/** u of one window at 5.0 m/s². */
const WINDOW = 250_000;
export const LAST_BURST_WINDOWS = 50;

export type Owner = 'edda' | 'bram' | 'nobody';

export class CounterLife {
  readonly site = new Site();
  readonly edda = new WearableRig(this.site, 11);
  readonly bram = new WearableRig(this.site, 12);
  readonly saw: CounterRig;
  private owner: Owner = 'nobody';
  private readonly bursts: { readonly fromMs: number; readonly forMs: number; readonly owner: Owner }[] = [];
  private readonly steps = [
    () => this.work(17_000),
    () => this.pair('edda'),
    () => this.work(12_000),
    () => this.work(100),
    () => this.pair('bram'),
    () => this.work(8_000),
    () => this.close(),
    () => this.work(3_000),
  ];

  constructor(flash: FlashState) {
    this.saw = new CounterRig(this.site, 1, 50, structuredClone(flash));
  }

  /** As far as the power lasts. */
  live(): void {
    for (const step of this.steps) if (this.saw.isOn) step();
  }

  /** What ran before the power failed, in whole windows. */
  ran(owner: Owner): number {
    const endMs = this.saw.isOn ? this.site.nowMs : this.saw.darkMs;
    return this.bursts
      .filter((burst) => burst.owner === owner)
      .map(({ fromMs, forMs }) => Math.floor(Math.max(0, Math.min(forMs, endMs - fromMs)) / 100))
      .reduce((sum, windows) => sum + (windows >= 2 ? windows : 0), 0);
  }

  /** The last burst of the day, the end of both shifts, and time for everything to be told. */
  finish(): void {
    this.site.runTo(Math.ceil(this.site.nowMs / 1000) * 1000);
    this.saw.work(100 * LAST_BURST_WINDOWS);
    this.close();
    this.site.runFor(3 * MINUTE);
  }

  /** In windows, once the day is finished. */
  charged(): Record<Owner, number> {
    if (this.saw.observe().session !== 0) throw new Error('a session is still open');
    const nobody = this.saw.observe().dose;
    return { edda: totalOf(this.edda) / WINDOW, bram: totalOf(this.bram) / WINDOW, nobody: nobody / WINDOW };
  }

  private work(forMs: number): void {
    this.bursts.push({ fromMs: this.site.nowMs, forMs, owner: this.owner });
    this.saw.work(forMs);
  }

  private pair(who: 'edda' | 'bram'): void {
    const { saw, site } = this;
    const wearable = this[who];
    touch(saw, wearable);
    site.runFor(100);
    wearable.tap();
    saw.push();
    site.runFor(900);
    if (this.saw.isOn) this.owner = who;
  }

  private close(): void {
    this.edda.close();
    this.bram.close();
    this.site.runFor(MINUTE + 1000);
    this.owner = 'nobody';
  }
}

function totalOf(wearable: WearableRig): number {
  return wearable.observe().reduce((sum, { dose }) => sum + dose, 0);
}
