// A counter on a fake board: it is turned, pushed, touched, shaken and spoken to; what it shows and sends is written down.
import type { FlashState } from '../../sim/flash/flash.js';
import { tableEngine } from '../../src/bench/engines/table.js';
import { ModelCounter } from '../../src/counter/counter.js';
import type { Recovered, SessionSums, Sums } from '../../src/port/inner.js';
import type { CounterBoard, CounterInput, Observation, SensorState } from '../../src/port/port.js';
import { DeviceRig } from './device-rig.js';
import type { Site } from './site.js';

/** mm/s² of a tool at work and at rest. */
export const WORK_MM = 65_000;
export const REST_MM = 80;

export class CounterRig extends DeviceRig<ModelCounter> {
  /** "opened 1", "sealed 1", "delivered 1" … */
  readonly sessions: string[] = [];
  /** Sessions that it had when it started last: "opened 1", "sealed 2" … */
  readonly found: string[] = [];
  /** Sums of every session as the counter last told them, session 0 for the unclaimed; and those that its journal holds. */
  readonly counted = new Map<number, Sums>();
  readonly kept = new Map<number, SessionSums>();
  readonly magnitudes: number[] = [];
  private levelMm = REST_MM;
  private sensorState: SensorState = 'good';

  constructor(
    site: Site,
    id: number,
    private readonly keyedTenths: number,
    flash?: FlashState,
  ) {
    super(site, id, flash);
    this.powerUp();
  }

  push(): void {
    this.input({ input: 'push' });
  }

  /** The ring is held down for as long as it takes to open setting. */
  hold(): void {
    this.input({ input: 'hold' });
  }

  turn(detents: number): void {
    this.input({ input: 'turn', detents });
  }

  touch(peer: number): void {
    this.input({ input: 'touch', peer });
  }

  readout(): void {
    this.input({ input: 'readout' });
  }

  /** Every window that ends from now on reads so many mm/s². */
  level(levelMm: number): void {
    this.levelMm = levelMm;
    this.feed();
  }

  sensor(state: SensorState): void {
    this.sensorState = state;
    this.feed();
  }

  /** Runs through windows of these levels, one after the other; the last level goes on. Begin on a whole 100 ms. */
  windows(...levelsMm: number[]): void {
    for (const levelMm of levelsMm) {
      this.level(levelMm);
      this.site.runFor(100);
    }
  }

  /** The tool runs for ms, then rests for long enough to be seen to. */
  work(ms: number, restMs = 1000): void {
    this.level(WORK_MM);
    this.site.runFor(ms);
    this.level(REST_MM);
    this.site.runFor(restMs);
  }

  observe(): Observation {
    return this.device.observe();
  }

  protected start(cellMv: number): ModelCounter {
    this.found.length = 0;
    const counter = new ModelCounter(this.counterBoard(), tableEngine);
    counter.boot({ id: this.id, keyedTenths: this.keyedTenths }, cellMv);
    counter.window(this.levelMm, this.sensorState);
    return counter;
  }

  private counterBoard(): CounterBoard {
    const inner = {
      state: this.live((region: string, state: string) => this.states.set(region, state)),
      kept: this.live((session: number, sums: SessionSums) => this.kept.set(session, { ...sums })),
      recovered: this.live((found: Recovered) => this.recovered.push(found)),
      count: this.live((session: number, sums: Readonly<Sums>) => this.counted.set(session, { ...sums })),
      magnitude: this.live((tenths: number) => this.magnitudes.push(tenths)),
      session: this.live((session: number, what: string) => this.sessions.push(`${what} ${session}`)),
      found: this.live((session: number, what: string) => this.found.push(`${what} ${session}`)),
    };
    return { ...this.board(), inner };
  }

  private input(input: CounterInput): void {
    this.act((counter) => counter.input(input));
  }

  private feed(): void {
    this.act((counter) => counter.window(this.levelMm, this.sensorState));
  }
}
