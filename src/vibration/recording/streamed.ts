// What recordings of all formats have in common: a pass over the file, whose blocks are checked on their way through.
import type { Axis } from '../weighting/filter.js';
import type { FullScale } from './axis-check.js';
import { axesFindings, rateFindings, SignalChecks } from './checks.js';
import { isSystemError } from './error.js';
import { finding } from './findings.js';
import type { Block, Finding, Recording } from './recording.js';

/** One reading of a file from its start. */
export interface Pass {
  readonly bytesRead: number;
  /** Every sample of them is finite and possible. */
  blocks(): AsyncIterable<Block>;
  /** Up to now. */
  findings(): readonly Finding[];
}

/** What is known of a file once its head has been read. */
export interface Source {
  readonly name: string;
  readonly rateHz: number;
  readonly totalBytes: number;
  readonly axes: readonly Axis[];
  readonly fullScale: FullScale | null;
  readonly findings: readonly Finding[];
  pass(): Pass;
}

export class StreamedRecording implements Recording {
  private readonly known: readonly Finding[];
  private pass: Pass | null = null;
  private checks: SignalChecks | null = null;
  /** Bytes of a pass in which the samples have been looked at to the end: they are the same the next time. null: none yet. */
  private checkedBytes: number | null = null;
  private failed: readonly Finding[] = [];

  constructor(private readonly source: Source) {
    this.known = [...rateFindings(source.rateHz), ...axesFindings(source.axes), ...source.findings];
  }

  get name(): string {
    return this.source.name;
  }

  get rateHz(): number {
    return this.source.rateHz;
  }

  get bytes(): { readonly read: number; readonly total: number } {
    return { read: this.pass?.bytesRead ?? 0, total: this.source.totalBytes };
  }

  get findings(): readonly Finding[] {
    return [...this.known, ...(this.pass?.findings() ?? []), ...(this.checks?.findings() ?? []), ...this.failed];
  }

  async *blocks(): AsyncGenerator<Block> {
    const { rateHz, axes, fullScale } = this.source;
    const pass = this.source.pass();
    const checks = this.checkedBytes !== null ? null : new SignalChecks(rateHz, axes, fullScale);
    this.pass = pass;
    this.checks = checks ?? this.checks;
    this.failed = [];
    try {
      for await (const block of pass.blocks()) {
        checks?.take(block);
        yield block;
      }
    } catch (error) {
      if (!isSystemError(error)) throw error;
      const says = `Reading failed at byte ${pass.bytesRead} (${error.code}). Copy the file to a sound disk and try again.`;
      this.failed = [finding('refuses', 'reading-failed', says)];
    }
    checks?.end();
    this.checkedBytes ??= pass.bytesRead;
    if (this.failed.length === 0 && pass.bytesRead !== this.checkedBytes) {
      const says = 'The file has changed while it was read. Wait until nothing writes to it, and try again.';
      this.failed = [finding('refuses', 'changed', says)];
    }
    if (this.failed.length > 0) this.checkedBytes = null;
  }
}
