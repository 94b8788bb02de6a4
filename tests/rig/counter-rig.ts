// A counter on a fake board: it is turned, pushed, touched, shaken and spoken to; what it shows and sends is written down.
import { tableEngine } from '../../src/bench/engines/table.js';
import { ModelCounter } from '../../src/counter/counter.js';
import type { Message } from '../../src/link/messages.js';
import type { Sums } from '../../src/port/inner.js';
import type { CounterInput, Display, Observation, SensorState } from '../../src/port/port.js';
import { drawsOf } from './draws.js';
import { type Frames, type Site, sentBy } from './site.js';

/** mm/s² of a tool at work and at rest. */
export const WORK_MM = 65_000;
export const REST_MM = 80;

export interface ShownDisplay extends Display {
  readonly atMs: number;
}

export class CounterRig {
  /** Every display, oldest first. */
  readonly shown: ShownDisplay[] = [];
  /** State of every region of the chart, as last told. */
  readonly states = new Map<string, string>();
  readonly refused: { readonly message: Message; readonly from: number; readonly reason: string }[] = [];
  /** "opened 1", "sealed 1", "delivered 1" … */
  readonly sessions: string[] = [];
  /** Sums of every session as the counter last told them, session 0 for the unclaimed. */
  readonly counted = new Map<number, Sums>();
  readonly magnitudes: number[] = [];
  private readonly counter: ModelCounter;
  private levelMm = REST_MM;
  private sensorState: SensorState = 'good';

  constructor(
    readonly site: Site,
    readonly id: number,
    keyedTenths: number,
    random: () => number = drawsOf(id),
  ) {
    const board = {
      show: (display: Display) => this.shown.push({ ...display, atMs: site.nowMs }),
      send: (message: Message, to: number) => site.send(id, to, message),
      refused: (message: Message, from: number, reason: string) => this.refused.push({ message, from, reason }),
      random,
    };
    const inner = {
      state: (region: string, state: string) => this.states.set(region, state),
      count: (session: number, sums: Readonly<Sums>) => this.counted.set(session, { ...sums }),
      magnitude: (tenths: number) => this.magnitudes.push(tenths),
      session: (session: number, what: string) => this.sessions.push(`${what} ${session}`),
    };
    this.counter = new ModelCounter(board, inner, tableEngine);
    this.counter.boot({ id, keyedTenths });
    this.counter.window(this.levelMm, this.sensorState);
    site.place(id, this.counter);
  }

  /** What it shows now. */
  get display(): ShownDisplay {
    return this.shown[this.shown.length - 1]!;
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

  /** A frame arrives now. */
  hear(message: Message, from: number): void {
    this.site.act(this.id, () => this.counter.receive(message, from));
  }

  observe(): Observation {
    return this.counter.observe();
  }

  sent<F extends Message['frame']>(frame: F): Frames<F>[] {
    return sentBy(this.site, this.id, frame);
  }

  private input(input: CounterInput): void {
    this.site.act(this.id, () => this.counter.input(input));
  }

  private feed(): void {
    this.site.act(this.id, () => this.counter.window(this.levelMm, this.sensorState));
  }
}
