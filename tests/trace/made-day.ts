// A trace made by hand for tests of what reads traces: the shape of a real one, without the bench behind it.
// Tools are worked by their session's owner; a tally every five seconds of running, heard unless the owner is away.
import { hasPassed } from '../../src/exposure/regimes.js';
import type { LevelField, TraceEvent } from '../../src/trace/kinds.js';
import { Recorder } from '../../src/trace/recorder.js';

export const MINUTE = 60_000;
export const HOUR = 3_600_000;
const TALLY_EVERY_MS = 5_000;

export const LEVELS: readonly LevelField[] = [
  { level: 'notice', points: 80, compare: 'reached' },
  { level: 'action', points: 100, compare: 'reached' },
  { level: 'limit', points: 400, compare: 'exceeded' },
];

interface Tool {
  tenths: number;
  session: number;
  owner: string;
  dose: number;
  windows: number;
  sequence: number;
}

interface Worker {
  away: boolean;
  shift: number;
  ledger: Map<string, number>;
  raised: Set<string>;
}

export class MadeDay {
  private readonly recorder = new Recorder();
  private readonly steps: { atMs: number; take: (atMs: number) => void }[] = [];
  private readonly tools = new Map<string, Tool>();
  private readonly workers = new Map<string, Worker>();

  constructor(
    tools: Readonly<Record<string, number>>,
    workers: readonly string[],
    day: { fromMs?: number; untilMs?: number } = {},
  ) {
    const { fromMs = 7 * HOUR, untilMs = 8 * HOUR } = day;
    this.recorder.add(0, 'bench', 'hand.day', 0, { fromMs, regime: 'gb-2005', seed: 7, untilMs });
    for (const [name, tenths] of Object.entries(tools)) {
      this.recorder.add(0, name, 'hand.tool', 0, {
        character: 'rotary',
        keyedTenths: tenths,
        magnitudeTenths: tenths === 0 ? 60 : tenths,
      });
      this.tools.set(name, { tenths, session: 0, owner: '', dose: 0, windows: 0, sequence: 0 });
    }
    for (const name of workers) {
      this.recorder.add(0, name, 'hand.worker', 0, { levels: LEVELS });
      this.workers.set(name, { away: false, shift: 0, ledger: new Map(), raised: new Set() });
    }
  }

  /** Puts any step into the day. */
  step(atMs: number, take: (recorder: Recorder, atMs: number) => void): this {
    this.steps.push({ atMs, take: (at) => take(this.recorder, at) });
    return this;
  }

  pair(atMs: number, tool: string, worker: string): this {
    return this.step(atMs, () => this.paired(atMs, tool, worker));
  }

  /** Runs the tool for forMs. */
  work(atMs: number, tool: string, by: string, forMs: number): this {
    this.step(atMs, (recorder) => {
      recorder.add(atMs, by, 'hand.start', 0, { held: true, tool });
      this.count(atMs, tool, 0);
    });
    for (let ran = TALLY_EVERY_MS; ran < forMs; ran += TALLY_EVERY_MS) {
      this.step(atMs + ran, (_, at) => {
        this.counted(tool, TALLY_EVERY_MS);
        this.tally(at, tool);
      });
    }
    const last = forMs % TALLY_EVERY_MS || TALLY_EVERY_MS;
    return this.step(atMs + forMs, (recorder, at) => {
      recorder.add(at, by, 'hand.stop', 0, { tool });
      this.count(at, tool, last);
      this.tally(at, tool);
    });
  }

  leave(atMs: number, worker: string, forMs: number): this {
    this.step(atMs, (recorder) => {
      const one = this.workers.get(worker);
      if (one !== undefined) one.away = true;
      recorder.add(atMs, worker, 'hand.leave', 0, { who: [worker] });
    });
    return this.step(atMs + forMs, (recorder, at) => {
      const one = this.workers.get(worker);
      if (one !== undefined) one.away = false;
      recorder.add(at, worker, 'hand.return', 0, { who: [worker] });
    });
  }

  tap(atMs: number, worker: string): this {
    return this.step(atMs, (recorder) => recorder.add(atMs, worker, 'input.tap', 0, {}));
  }

  close(atMs: number, worker: string): this {
    return this.step(atMs, (recorder) => {
      recorder.add(atMs, worker, 'inner.shift', 0, { shift: this.worker(worker).shift, what: 'closed' });
    });
  }

  events(): readonly TraceEvent[] {
    for (const { atMs, take } of this.steps.sort((a, b) => a.atMs - b.atMs)) take(atMs);
    this.steps.length = 0;
    return this.recorder.events;
  }

  private paired(atMs: number, name: string, worker: string): void {
    const tool = this.tool(name);
    const add = (what: string) =>
      this.recorder.add(atMs, name, 'inner.session', 0, { session: tool.session, what, with: tool.owner });
    if (tool.session > 0) add('sealed');
    Object.assign(tool, { session: tool.session + 1, owner: worker, dose: 0, windows: 0 });
    const wearer = this.worker(worker);
    const shift = Math.max(1, wearer.shift);
    this.recorder.add(atMs, worker, 'inner.paired', 0, { counter: name, session: tool.session, shift });
    add('opened');
    if (wearer.shift > 0) return;
    wearer.shift = 1;
    this.recorder.add(atMs, worker, 'inner.shift', 0, { shift: 1, what: 'opened' });
  }

  /** Counts ms of running. */
  private counted(name: string, ms: number): void {
    const tool = this.tool(name);
    tool.dose += tool.tenths * tool.tenths * ms;
    tool.windows += ms / 100;
  }

  private count(atMs: number, name: string, ms: number): void {
    this.counted(name, ms);
    const { dose, session, tenths, windows } = this.tool(name);
    this.recorder.add(atMs, name, 'inner.count', 0, {
      dose,
      session,
      shortBursts: 0,
      triggerWindows: windows,
      unratedWindows: tenths === 0 ? windows : 0,
    });
  }

  private tally(atMs: number, name: string): void {
    const tool = this.tool(name);
    if (tool.session === 0) return;
    const { dose, owner, session, tenths, windows } = tool;
    const n = this.recorder.add(atMs, name, 'air.tally', 0, {
      bytes: 'a1',
      cell: 3,
      dose,
      flags: 1,
      link: session,
      magnitudeTenths: tenths,
      sequence: ++tool.sequence,
      session,
      to: owner,
      triggerWindows: windows,
      unratedWindows: tenths === 0 ? windows : 0,
    });
    if (this.worker(owner).away) {
      this.recorder.add(atMs, name, 'air.lost', n, { frame: 'tally', reason: 'range', to: owner });
    } else {
      this.heard(atMs, name, tool, n);
    }
  }

  private heard(atMs: number, name: string, tool: Tool, n: number): void {
    const { dose, owner, session, windows } = tool;
    const worker = this.worker(owner);
    this.recorder.add(atMs, owner, 'air.heard', n, { frame: 'tally', from: name });
    worker.ledger.set(`${name} ${session}`, dose);
    const total = [...worker.ledger.values()].reduce((sum, one) => sum + one, 0);
    this.recorder.add(atMs, owner, 'inner.ledger', n, {
      counter: name,
      dose,
      session,
      shift: worker.shift,
      total,
      triggerWindows: windows,
      unratedWindows: tool.tenths === 0 ? windows : 0,
    });
    for (const { level, points, compare } of LEVELS) {
      if (worker.raised.has(level) || !hasPassed(total, points, compare)) continue;
      worker.raised.add(level);
      this.recorder.add(atMs, owner, 'shown.alert', n, { again: 0, level });
    }
    const ack = this.recorder.add(atMs, owner, 'air.ack', n, {
      bytes: 'a3',
      closed: false,
      highest: tool.sequence,
      highestReport: 0,
      leftTenths: 0,
      level: worker.raised.size,
      link: session,
      sequence: tool.sequence,
      to: name,
    });
    this.recorder.add(atMs, name, 'air.heard', ack, { frame: 'ack', from: owner });
  }

  private tool(name: string): Tool {
    const tool = this.tools.get(name);
    if (tool === undefined) throw new Error(`no tool ${name}`);
    return tool;
  }

  private worker(name: string): Worker {
    const worker = this.workers.get(name);
    if (worker === undefined) throw new Error(`no worker ${name}`);
    return worker;
  }
}

/** Three workers, four tools, two hours or more of trigger time each: about 40 000 events. */
export function longDay(): MadeDay {
  const tools = { breaker: 82, grinder: 46, drill: 60, saw: 31 };
  const day = new MadeDay(tools, ['Edda', 'Bram', 'Ilse']);
  const owners = { breaker: 'Edda', grinder: 'Bram', drill: 'Ilse', saw: 'Bram' };
  Object.entries(owners).forEach(([tool, owner], turn) => {
    day.pair(5 * MINUTE, tool, owner);
    for (let cycle = 0; cycle < 90; cycle++) {
      const atMs = 10 * MINUTE + cycle * 5 * MINUTE + turn * 15_000;
      day.work(atMs, tool, owner, turn === 0 ? 90_000 : 150_000);
    }
  });
  return day
    .leave(3 * HOUR, 'Edda', 45 * MINUTE)
    .tap(4 * HOUR, 'Edda')
    .close(7.9 * HOUR, 'Ilse');
}
