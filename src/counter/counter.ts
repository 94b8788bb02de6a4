// The model's counter: its statechart, fed with windows, inputs, frames and time. This shell passes things on; what is decided
// stands in the chart, what is computed in the files beside it.
import { Journal } from '../journal/journal.js';
import { isPoor } from '../port/cell.js';
import type { ChartEvent, Engine, EngineMaker } from '../port/engine.js';
import {
  type Counter,
  type CounterBoard,
  type CounterInput,
  type Identity,
  type Observation,
  type SensorState,
  WINDOW_MS,
} from '../port/port.js';
import { type CounterEvent, counterMachine } from './chart.js';
import { DETECTOR_DEFAULTS, type Detection, detect, windowsToDecision } from './detector.js';
import { effectsOf, guardsOf } from './effects.js';
import { displayOf, type Face, faceOf } from './face.js';
import { recover } from './journal.js';
import { count, countShortBurst } from './meter.js';
import type { Parts } from './parts.js';
import { take } from './receive.js';
import { believedLevelMm, sensorWindowsToDecision, watchSensor } from './sensor.js';
import { sealedSums } from './sessions.js';
import { freshState } from './state.js';

export class ModelCounter implements Counter {
  private readonly parts: Parts;
  private readonly engine: Engine;
  private readonly detection: Detection = { used: 0, counted: 0, decision: 'none' };
  private readonly face: Face = { screen: '', value: -1, second: -1, icons: 0 };
  private shown: Face | null = null;

  constructor(board: CounterBoard, makeEngine: EngineMaker, journal = Journal.open(board.flash)) {
    this.parts = {
      state: freshState(0, 0),
      journal,
      board,
      transmit: (frame, to, meaning) => {
        if (!this.parts.state.asleep) board.send(frame, to, meaning);
      },
      nowMs: () => this.engine.nowMs,
      send: (event) => this.engine.send(event as ChartEvent),
      post: (delayMs, event) => this.engine.post(delayMs, event as ChartEvent),
    };
    this.engine = makeEngine({
      machine: counterMachine,
      guards: guardsOf(this.parts),
      effects: effectsOf(this.parts),
      onState: (region, state) => board.inner.state(region, state),
    });
  }

  boot(identity: Identity, cellMv: number): void {
    const { parts } = this;
    const { board, journal } = parts;
    parts.state = freshState(identity.id, cellMv);
    const poor = isPoor(parts.state);
    journal.hold(poor);
    this.engine.start();
    recover(parts, identity.keyedTenths);
    const { open, sealed } = parts.state;
    this.tellFound();
    board.inner.recovered(journal.counts());
    if (poor) parts.send({ type: 'CELL_LOW' });
    if (open !== null) parts.send({ type: 'OPENED' });
    if (sealed.length > 0) parts.send({ type: 'SEALED' });
    this.refresh();
  }

  input(input: CounterInput): void {
    if (this.parts.state.asleep) return;
    this.parts.send(eventOf(input));
    this.refresh();
  }

  window(levelMm: number, sensor: SensorState): void {
    this.parts.state.levelMm = levelMm;
    this.parts.state.sensor = sensor;
  }

  cell(millivolts: number): void {
    const { parts } = this;
    parts.state.cellMv = millivolts;
    if (isPoor(parts.state) && !parts.state.asleep) parts.send({ type: 'CELL_LOW' });
    this.refresh();
  }

  receive(frame: Uint8Array): void {
    if (this.parts.state.asleep) return;
    const reason = take(this.parts, frame);
    if (reason !== '') this.parts.board.refused(reason);
    this.refresh();
  }

  advance(toMs: number): number {
    for (let dueMs = this.nextMs(); dueMs <= toMs; dueMs = this.nextMs()) {
      this.engine.moveTo(dueMs);
      this.gather(dueMs);
      this.engine.runTo(dueMs);
      this.refresh();
    }
    this.engine.moveTo(toMs);
    this.gather(toMs);
    return this.nextMs();
  }

  observe(): Observation {
    const { open, rate, unclaimed } = this.parts.state;
    const others = sealedSums(this.parts.state);
    if (open !== null) others.unshift({ session: 0, ...unclaimed });
    return { session: open?.session ?? 0, ...(open?.sums ?? unclaimed), magnitudeTenths: rate.tenths, others };
  }

  fork(board: CounterBoard): ModelCounter {
    const copy = new ModelCounter(board, (chart) => this.engine.fork(chart), this.parts.journal.fork(board.flash));
    copy.parts.state = structuredClone(this.parts.state);
    copy.shown = this.shown;
    return copy;
  }

  inside(): object {
    return [this.parts.state, this.parts.journal.inside(), this.engine.inside()];
  }

  /**
   * The next deadline: of the chart, or the end of the window that would decide something at the present level, or of the first
   * that nobody claims, which is shown (PAI-4).
   */
  private nextMs(): number {
    const { state } = this.parts;
    if (state.asleep) return this.engine.nextMs();
    const isFirstUnclaimed = state.detector.running && state.open === null && state.unclaimed.triggerWindows === 0;
    const windows = Math.min(
      isFirstUnclaimed ? 1 : Infinity,
      windowsToDecision(DETECTOR_DEFAULTS, state.detector, believedLevelMm(state.levelMm, state.sensor)),
      sensorWindowsToDecision(state.sensorWatch, state.sensor),
    );
    return Math.min((state.windows + windows) * WINDOW_MS, this.engine.nextMs());
  }

  /** Takes in the windows that ended by nowMs; at most the last of them decides something. */
  private gather(nowMs: number): void {
    const { state } = this.parts;
    const windows = Math.floor(nowMs / WINDOW_MS) - state.windows;
    if (windows === 0) return;
    state.windows += windows;
    if (state.asleep) return;
    this.detect(windows);
    if (watchSensor(state.sensorWatch, state.sensor, windows)) {
      const { faulty } = state.sensorWatch;
      if (faulty && state.open !== null) {
        state.open.sensorFailed = true;
        state.open.unkept = true;
      }
      this.parts.send({ type: faulty ? 'SENSOR_FAULT' : 'SENSOR_GOOD' });
    }
  }

  private detect(windows: number): void {
    const { parts, detection } = this;
    const { state } = parts;
    detect(DETECTOR_DEFAULTS, state.detector, believedLevelMm(state.levelMm, state.sensor), windows, detection);
    if (detection.used !== windows) throw new Error('a decision of the detector was passed over');
    const sums = state.open?.sums ?? state.unclaimed;
    if (detection.counted > 0) count(sums, state.rate, state.windows - detection.counted, detection.counted);
    if (detection.decision === 'none') return;
    if (detection.decision === 'short') countShortBurst(sums);
    parts.board.inner.count(state.open?.session ?? 0, sums);
    if (detection.decision !== 'short') parts.send({ type: detection.decision === 'started' ? 'STARTED' : 'STOPPED' });
  }

  private tellFound(): void {
    const { inner } = this.parts.board;
    const { open, rate, sealed, unclaimed } = this.parts.state;
    inner.magnitude(rate.tenths);
    for (const kept of sealed) inner.found(kept.session, 'sealed', kept.wearable);
    if (open !== null) inner.found(open.session, 'opened', open.wearable);
    if (unclaimed.triggerWindows > 0) inner.count(0, unclaimed);
    if (open !== null) inner.count(open.session, open.sums);
  }

  private refresh(): void {
    const { face, shown } = this;
    faceOf(this.parts, this.engine.state('panel'), face);
    const same =
      shown?.icons === face.icons &&
      shown.value === face.value &&
      shown.second === face.second &&
      shown.screen === face.screen;
    if (same) return;
    this.shown = { ...face };
    this.parts.board.show(displayOf(face));
  }
}

function eventOf(input: CounterInput): CounterEvent {
  switch (input.input) {
    case 'push':
      return { type: 'PUSH' };
    case 'hold':
      return { type: 'HOLD' };
    case 'turn':
      return { type: 'TURN', detents: input.detents };
    case 'touch':
      return { type: 'TOUCH', peer: input.peer };
    case 'readout':
      return { type: 'READOUT' };
  }
}
