// What the rigs of both devices share: a flash that outlasts power failures, a board that is dead while the power is off, and
// everything that comes out of it written down.
import { type FlashState, newFlash, SimFlash } from '../../sim/flash/flash.js';
import { GEOMETRY } from '../../sim/flash/geometry.js';
import { RandomStream } from '../../sim/kernel/random.js';
import type { Recovered } from '../../src/port/inner.js';
import type { Board, Display } from '../../src/port/port.js';
import type { Refusal } from '../../src/port/refusals.js';
import { drawsOf } from './draws.js';
import { type Device, type FrameName, type Frames, framesBy, type Site } from './site.js';

/** Voltage of a fresh cell, and of one with which no flash operation may start. */
export const FULL_MV = 3000;
export const POOR_MV = 2300;

export interface ShownDisplay extends Display {
  readonly atMs: number;
}

interface PoweredDevice extends Device {
  cell(millivolts: number): void;
  inside(): object;
}

export abstract class DeviceRig<D extends PoweredDevice> {
  /** Every display, oldest first. */
  readonly shown: ShownDisplay[] = [];
  /** State of every region of the chart, as last told. */
  readonly states = new Map<string, string>();
  /** Why frames were dropped, oldest first. */
  readonly refused: Refusal[] = [];
  /** What was handed to the reader. */
  readonly records: Uint8Array[] = [];
  /** What it found in its journal at each start. */
  readonly recovered: Recovered[] = [];
  readonly flash: SimFlash;
  /** Bytes of every write to it that came to its end. */
  readonly written: number[] = [];
  /** The present device; of no use while the power is off. */
  protected device!: D;
  /** When its power failed last. */
  darkMs = 0;
  private powered = false;
  private starts = 0;
  private readonly random: () => number;

  /** flash: one that has been in use (it is taken over), or else a new one. */
  constructor(
    readonly site: Site,
    readonly id: number,
    flash: FlashState = newFlash(RandomStream.named(id, 'flash')),
  ) {
    this.random = drawsOf(id);
    this.flash = new SimFlash(flash, (told) => {
      if (told.what === 'programmed') this.written.push(told.length);
      if (told.what === 'erasing') this.finishErase(this.starts);
      if (told.what === 'failed') this.goDark();
    });
  }

  get isOn(): boolean {
    return this.powered;
  }

  /** What it shows now. */
  get display(): ShownDisplay {
    return this.shown[this.shown.length - 1]!;
  }

  /** The power fails at this instant; an erase that goes on is left on its way. */
  cutPower(): void {
    this.flash.failNow();
    this.goDark();
  }

  /** A new device on the same flash, with a clock that begins now. */
  powerUp(cellMv = FULL_MV): void {
    this.flash.powerBack();
    this.powered = true;
    this.starts += 1;
    this.device = this.start(cellMv);
    // Power may have failed again while it recovered.
    if (this.powered) this.site.place(this.id, this.device);
  }

  /** Voltage of its cell under working load from now on. */
  cell(millivolts: number): void {
    this.act((device) => device.cell(millivolts));
  }

  /** A frame arrives now. */
  hear(frame: Uint8Array): void {
    this.act((device) => device.receive(frame));
  }

  /** What it has sent of one kind, oldest first; the bytes are in site.frames. */
  sent<F extends FrameName>(name: F): Frames<F>[] {
    return framesBy(this.site, this.id, name).map(({ message }) => message);
  }

  sentBytes(name: FrameName): Uint8Array[] {
    return framesBy(this.site, this.id, name).map(({ bytes }) => bytes);
  }

  /** All that decides how it goes on. */
  inside(): object {
    return this.device.inside();
  }

  protected abstract start(cellMv: number): D;

  /** A device without power takes no notice of anything. */
  protected act(what: (device: D) => void): void {
    if (this.powered) this.site.act(this.id, () => what(this.device));
  }

  /** Lets something through only while the power is on. */
  protected live<A extends readonly unknown[]>(tell: (...told: A) => unknown): (...told: A) => void {
    return (...told) => {
      if (this.powered) tell(...told);
    };
  }

  protected board(): Board {
    const { site, id } = this;
    return {
      flash: this.flash,
      cipher: site.cipher,
      show: this.live((display) => this.shown.push({ ...display, atMs: site.nowMs })),
      send: this.live((bytes, to, message) => site.send({ from: id, to, bytes, message })),
      refused: this.live((reason) => this.refused.push(reason)),
      record: this.live((bytes) => this.records.push(bytes)),
      random: this.random,
    };
  }

  private finishErase(start: number): void {
    this.site.after(GEOMETRY.eraseMs, () => {
      if (start === this.starts) this.flash.finishErase();
    });
  }

  private goDark(): void {
    if (this.powered) this.darkMs = this.site.nowMs;
    this.powered = false;
    this.site.remove(this.id);
  }
}
