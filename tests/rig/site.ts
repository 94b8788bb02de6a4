// A place for devices under test: one time for all of them, and an air that a test can hold in its hands. Frames take AIR_MS
// unless the test says otherwise; what is sent to an identity that is not on site is only written down.
import type { Message } from '../../src/link/messages.js';

export const AIR_MS = 5;
const MAX_STEPS = 2_000_000;

export interface Frame {
  readonly atMs: number;
  readonly from: number;
  readonly to: number;
  readonly message: Message;
}

export type Frames<F extends Message['frame']> = Extract<Message, { frame: F }>;

interface Device {
  receive(message: Message, from: number): void;
  advance(toMs: number): number;
}

/** What becomes of a frame: the delays in ms after which copies of it arrive, none where it is lost. */
export type Air = (frame: Frame) => readonly number[];

export class Site {
  nowMs = 0;
  air: Air = () => [AIR_MS];
  /** All that was sent, in order. */
  readonly frames: Frame[] = [];
  private readonly devices = new Map<number, { readonly device: Device; wakeMs: number }>();
  private flying: { readonly dueMs: number; readonly frame: Frame }[] = [];

  /** Puts a device in place; boot it first. */
  place(id: number, device: Device): void {
    this.devices.set(id, { device, wakeMs: device.advance(this.nowMs) });
  }

  send(from: number, to: number, message: Message): void {
    const frame = { atMs: this.nowMs, from, to, message };
    this.frames.push(frame);
    for (const delayMs of this.air(frame)) this.flying.push({ dueMs: this.nowMs + delayMs, frame });
  }

  /** Has something done to a device at the present moment. */
  act(id: number, what: () => void): void {
    const placed = this.devices.get(id);
    if (placed === undefined) throw new Error(`no device on site has the identity ${id}`);
    placed.device.advance(this.nowMs);
    what();
    placed.wakeMs = placed.device.advance(this.nowMs);
  }

  runFor(ms: number): void {
    this.runTo(this.nowMs + ms);
  }

  /** Does everything due up to and including toMs, arrivals before the devices' own deadlines. */
  runTo(toMs: number): void {
    for (let steps = 0; this.nextMs() <= toMs; steps++) {
      if (steps > MAX_STEPS) throw new Error('the devices keep each other busy without end');
      this.nowMs = this.nextMs();
      this.arrive();
      for (const [id, { wakeMs }] of this.devices) if (wakeMs <= this.nowMs) this.act(id, () => {});
    }
    this.nowMs = toMs;
    for (const id of this.devices.keys()) this.act(id, () => {});
  }

  private nextMs(): number {
    const wakes = [...this.devices.values()].map(({ wakeMs }) => wakeMs);
    return Math.min(...wakes, ...this.flying.map(({ dueMs }) => dueMs));
  }

  private arrive(): void {
    const due = this.flying.filter(({ dueMs }) => dueMs <= this.nowMs);
    this.flying = this.flying.filter(({ dueMs }) => dueMs > this.nowMs);
    for (const { frame } of due) {
      const placed = this.devices.get(frame.to);
      if (placed !== undefined) this.act(frame.to, () => placed.device.receive(frame.message, frame.from));
    }
  }
}

/** The messages of one kind that `from` has sent, oldest first. */
export function sentBy<F extends Message['frame']>(site: Site, from: number, frame: F): Frames<F>[] {
  return site.frames.filter((sent) => sent.from === from).flatMap(({ message }) => ofKind(message, frame));
}

function ofKind<F extends Message['frame']>(message: Message, frame: F): Frames<F>[] {
  return message.frame === frame ? [message as Frames<F>] : [];
}
