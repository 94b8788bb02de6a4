// A place for devices under test: one time for all of them, and an air that a test can hold in its hands. Frames take AIR_MS
// unless the test says otherwise; what is sent to an identity that is not on site is only written down.
import { type Cipher, NO_KEYS } from '../../src/link/cipher.js';
import type { Message } from '../../src/link/pairing-messages.js';

export const AIR_MS = 5;
const MAX_STEPS = 2_000_000;

export interface Frame {
  readonly atMs: number;
  readonly from: number;
  readonly to: number;
  readonly bytes: Uint8Array;
  /** What the sender meant by them. */
  readonly message: Message;
}

export type FrameName = Message['frame'];
export type Frames<F extends FrameName> = Extract<Message, { frame: F }>;

export interface Device {
  receive(frame: Uint8Array): void;
  advance(toMs: number): number;
}

interface Placed {
  readonly device: Device;
  /** When its clock began. */
  readonly sinceMs: number;
  wakeMs: number;
}

/** What becomes of a frame: the delays in ms after which copies of it arrive, none where it is lost. */
export type Air = (frame: Frame) => readonly number[];

export class Site {
  nowMs = 0;
  air: Air = () => [AIR_MS];
  /** All that was sent, in order. */
  readonly frames: Frame[] = [];
  private readonly devices = new Map<number, Placed>();
  private planned: { readonly dueMs: number; readonly what: () => void }[] = [];

  constructor(readonly cipher: Cipher = NO_KEYS) {}

  /** Puts a device that has just been booted in place; its clock begins now. */
  place(id: number, device: Device): void {
    const placed = { device, sinceMs: this.nowMs, wakeMs: 0 };
    this.devices.set(id, placed);
    this.bringUp(placed);
  }

  /** Its power has failed: nothing reaches it any more. */
  remove(id: number): void {
    this.devices.delete(id);
  }

  send(frame: Omit<Frame, 'atMs'>): void {
    const sent = { ...frame, atMs: this.nowMs };
    this.frames.push(sent);
    for (const delayMs of this.air(sent)) this.after(delayMs, () => this.arrive(sent));
  }

  /** Plans something; what is planned comes before the devices' own deadlines. */
  after(delayMs: number, what: () => void): void {
    this.planned.push({ dueMs: this.nowMs + delayMs, what });
  }

  /** Has something done to a device at the present moment. */
  act(id: number, what: () => void): void {
    const placed = this.devices.get(id);
    if (placed === undefined) throw new Error(`no device on site has the identity ${id}`);
    this.bringUp(placed);
    // Its power may have failed in what was due.
    if (!this.devices.has(id)) return;
    what();
    this.bringUp(placed);
  }

  runFor(ms: number): void {
    this.runTo(this.nowMs + ms);
  }

  runTo(toMs: number): void {
    for (let steps = 0; this.nextMs() <= toMs; steps++) {
      if (steps > MAX_STEPS) throw new Error('the devices keep each other busy without end');
      this.nowMs = this.nextMs();
      const due = this.planned.filter(({ dueMs }) => dueMs <= this.nowMs);
      this.planned = this.planned.filter(({ dueMs }) => dueMs > this.nowMs);
      for (const { what } of due) what();
      for (const placed of this.devices.values()) if (placed.wakeMs <= this.nowMs) this.bringUp(placed);
    }
    this.nowMs = toMs;
    for (const placed of this.devices.values()) this.bringUp(placed);
  }

  private nextMs(): number {
    const wakes = [...this.devices.values()].map(({ wakeMs }) => wakeMs);
    return Math.min(...wakes, ...this.planned.map(({ dueMs }) => dueMs));
  }

  private bringUp(placed: Placed): void {
    placed.wakeMs = placed.sinceMs + placed.device.advance(this.nowMs - placed.sinceMs);
  }

  private arrive({ to, bytes }: Frame): void {
    const placed = this.devices.get(to);
    if (placed !== undefined) this.act(to, () => placed.device.receive(bytes));
  }
}

/** The frames of one kind that `from` has sent, oldest first. */
export function framesBy<F extends FrameName>(
  site: Site,
  from: number,
  name: F,
): (Frame & { readonly message: Frames<F> })[] {
  return site.frames.filter(
    (sent): sent is Frame & { readonly message: Frames<F> } => sent.from === from && sent.message.frame === name,
  );
}
