// The model's counter: the statechart with its guards and effects, fed with windows, inputs, frames and time.
// This shell only passes things on; what is decided stands in the chart, what is computed in the files beside it.
import type { Acknowledgement, Message, RefuseReason } from '../link/messages.js';
import { comparisonDigits } from '../link/pairing.js';
import type { ChartEvent, Effects, Engine, EngineMaker, Guards } from '../port/engine.js';
import type { CounterInner } from '../port/inner.js';
import {
  type Board,
  type Counter,
  type CounterInput,
  type Identity,
  type Observation,
  type SensorState,
  WINDOW_MS,
} from '../port/port.js';
import { type CounterEvent, counterMachine } from './chart.js';
import { DETECTOR_DEFAULTS, type Detection, detect, windowsToDecision } from './detector.js';
import { displayOf, type Face, faceOf } from './face.js';
import { changeRate, count, countShortBurst } from './meter.js';
import { believedLevelMm, sensorWindowsToDecision, watchSensor } from './sensor.js';
import { freeLink, isDelivered, openSession, sealSession, storeIsFull } from './sessions.js';
import { turnOne } from './setting.js';
import { type CounterState, freshState } from './state.js';
import { makeReport, makeTally, sequenceExhausted } from './telling.js';

export class ModelCounter implements Counter {
  private state: CounterState = freshState(0, 0);
  private readonly engine: Engine;
  private readonly detection: Detection = { used: 0, counted: 0, decision: 'none' };
  private readonly face: Face = { screen: '', value: -1, second: -1, icons: 0 };
  private shown: Face | null = null;

  constructor(
    private readonly board: Board,
    private readonly inner: CounterInner,
    makeEngine: EngineMaker,
  ) {
    this.engine = makeEngine({
      machine: counterMachine,
      guards: this.guards,
      effects: this.effects,
      onState: (region, state) => inner.state(region, state),
    });
  }

  boot(identity: Identity): void {
    this.state = freshState(identity.id, identity.keyedTenths);
    this.engine.start();
    this.inner.magnitude(identity.keyedTenths);
    this.refresh();
  }

  input(input: CounterInput): void {
    switch (input.input) {
      case 'push':
        this.send({ type: 'PUSH' });
        break;
      case 'hold':
        this.send({ type: 'HOLD' });
        break;
      case 'turn':
        this.send({ type: 'TURN', detents: input.detents });
        break;
      case 'touch':
        this.send({ type: 'TOUCH', peer: input.peer });
    }
    this.refresh();
  }

  window(levelMm: number, sensor: SensorState): void {
    this.state.levelMm = levelMm;
    this.state.sensor = sensor;
  }

  receive(message: Message, from: number): void {
    const reason = this.take(message, from);
    if (reason !== '') this.board.refused(message, from, reason);
    this.refresh();
  }

  advance(toMs: number): number {
    for (;;) {
      const dueMs = Math.min(this.decisionMs(), this.engine.nextMs());
      if (dueMs > toMs) break;
      this.engine.moveTo(dueMs);
      this.gather(dueMs);
      this.engine.runTo(dueMs);
      this.refresh();
    }
    this.engine.moveTo(toMs);
    this.gather(toMs);
    return Math.min(this.decisionMs(), this.engine.nextMs());
  }

  observe(): Observation {
    const { open, rate } = this.state;
    return { session: open?.session ?? 0, ...(open?.sums ?? this.state.unclaimed), magnitudeTenths: rate.tenths };
  }

  /** All state as text, for digests. */
  digest(): string {
    return JSON.stringify(this.state) + this.engine.digest();
  }

  private send(event: CounterEvent): void {
    this.engine.send(event as ChartEvent);
  }

  /** Time at which the windows to come, at the present level, would make the detector or the sensor watch decide. */
  private decisionMs(): number {
    const { state } = this;
    const level = believedLevelMm(state.levelMm, state.sensor);
    const windows = Math.min(
      windowsToDecision(DETECTOR_DEFAULTS, state.detector, level),
      sensorWindowsToDecision(state.sensorWatch, state.sensor),
    );
    return (state.windows + windows) * WINDOW_MS;
  }

  /** Takes in the windows that ended by nowMs; at most the last of them decides something. */
  private gather(nowMs: number): void {
    const { state, detection } = this;
    const windows = Math.floor(nowMs / WINDOW_MS) - state.windows;
    if (windows === 0) return;
    const level = believedLevelMm(state.levelMm, state.sensor);
    state.windows += windows;
    detect(DETECTOR_DEFAULTS, state.detector, level, windows, detection);
    if (detection.used !== windows) throw new Error('a decision of the detector was passed over');
    const sums = state.open?.sums ?? state.unclaimed;
    if (detection.counted > 0) count(sums, state.rate, state.windows - detection.counted, detection.counted);
    if (detection.decision === 'short') countShortBurst(sums);
    if (detection.decision === 'started') this.send({ type: 'STARTED' });
    if (detection.decision === 'stopped') this.send({ type: 'STOPPED' });
    if (detection.decision !== 'none') this.inner.count(state.open?.session ?? 0, sums);
    if (watchSensor(state.sensorWatch, state.sensor, windows)) {
      this.send({ type: state.sensorWatch.faulty ? 'SENSOR_FAULT' : 'SENSOR_GOOD' });
    }
  }

  /** Takes a frame in; returns why it was refused, or ''. */
  private take(message: Message, from: number): string {
    if (message.frame === 'ack') return this.takeAcknowledgement(message, from);
    if (message.frame === 'tally' || message.frame === 'report' || message.frame === 'answer') return 'unexpected';
    const { pairing } = this.state;
    if (pairing === null || pairing.peer !== from || message.counter !== this.state.id) return 'foreign';
    if (message.frame === 'hello') this.send({ type: 'HELLO', nonce: message.nonce });
    else this.send({ type: message.frame === 'accept' ? 'ACCEPT' : 'REFUSE' });
    return '';
  }

  private takeAcknowledgement(ack: Acknowledgement, from: number): string {
    const { state } = this;
    const { open } = state;
    if (open !== null && open.link === ack.link && open.wearable === from) {
      if (open.report !== null && ack.highestReport >= open.report.sequence) open.reportAcknowledged = true;
      state.advice = { level: ack.level, leftTenths: ack.leftTenths };
      this.send({ type: 'ADVICE' });
      if (ack.closed) this.send({ type: 'CLOSED' });
      return '';
    }
    const index = state.sealed.findIndex((sealed) => sealed.link === ack.link && sealed.wearable === from);
    const sealed = state.sealed[index];
    if (sealed === undefined) return 'foreign';
    if (!isDelivered(sealed, ack)) return '';
    state.sealed.splice(index, 1);
    this.inner.session(sealed.session, 'delivered', sealed.wearable);
    if (state.sealed.length === 0) this.send({ type: 'DELIVERED_ALL' });
    return '';
  }

  private readonly guards: Guards = {
    toolRuns: () => this.state.detector.running,
    storeFull: () => storeIsFull(this.state),
    somethingToReview: () => (this.state.setting?.tenths ?? 0) !== 0,
  };

  private readonly effects: Effects = {
    openSetting: () => {
      this.state.setting = { tenths: this.state.rate.tenths, recentMs: [] };
    },
    turnRing: (event) => {
      const { setting } = this.state;
      const detents = Number(event.detents);
      if (setting === null) throw new Error('the ring turns outside setting');
      for (let made = 0; made < Math.abs(detents); made++) turnOne(setting, detents > 0, this.engine.nowMs);
    },
    discardSetting: () => {
      this.state.setting = null;
    },
    commitMagnitude: () => {
      const tenths = this.state.setting?.tenths ?? 0;
      this.state.setting = null;
      changeRate(this.state.rate, tenths, this.engine.nowMs);
      this.inner.magnitude(tenths);
    },
    refuseRunning: (event) => this.refuse('running', event),
    refuseFull: (event) => this.refuse('full', event),
    refuseBusy: (event) => this.refuse('busy', event),
    openPairing: (event) => {
      const { state, board } = this;
      const link = freeLink(state, () => board.random());
      const session = state.lastSession + 1;
      state.pairing = { peer: Number(event.peer), link, session, nonce: board.random(), digits: -1 };
    },
    answerHello: (event) => {
      const { pairing, id } = this.state;
      if (pairing === null) throw new Error('a hello outside pairing');
      pairing.digits = comparisonDigits(Number(event.nonce), pairing.nonce);
      const { peer, nonce, link, session } = pairing;
      this.board.send({ frame: 'answer', counter: id, wearable: peer, nonce, link, session }, peer);
    },
    sendAccept: () => {
      const { pairing, id } = this.state;
      if (pairing === null) throw new Error('an accept outside pairing');
      this.board.send({ frame: 'accept', counter: id, wearable: pairing.peer }, pairing.peer);
    },
    openSession: () => {
      const { state } = this;
      const { pairing } = state;
      if (pairing === null) throw new Error('no pairing to open a session with');
      if (state.open !== null) this.seal();
      openSession(state, pairing);
      state.pairing = null;
      this.inner.session(pairing.session, 'opened', pairing.peer);
      this.send({ type: 'OPENED' });
    },
    endPairing: () => {
      this.state.pairing = null;
    },
    sealSession: () => this.seal(),
    tell: () => this.tell(),
    tellSealed: () => {
      for (const { frames, wearable } of this.state.sealed) {
        for (const frame of frames) this.board.send(frame, wearable);
      }
    },
    forgetAdvice: () => {
      this.state.advice = null;
    },
  };

  private tell(): void {
    const { open } = this.state;
    if (open === null) throw new Error('nothing to tell without a session');
    if (sequenceExhausted(open)) {
      this.send({ type: 'CLOSED' });
      return;
    }
    const report = makeReport(this.state, open);
    if (report !== null) this.board.send(report, open.wearable);
    this.board.send(makeTally(this.state, open, false), open.wearable);
  }

  private seal(): void {
    const { open } = this.state;
    if (open !== null) this.inner.count(open.session, open.sums);
    const sealed = sealSession(this.state);
    this.inner.session(sealed.session, 'sealed', sealed.wearable);
    this.send({ type: 'SEALED' });
  }

  /** PAI-1, PAI-5: a refusal is shown, and said to the wearable that touched. */
  private refuse(reason: RefuseReason, event: ChartEvent): void {
    this.state.refusal = reason;
    if (event.peer === undefined) return;
    const peer = Number(event.peer);
    this.board.send({ frame: 'refuse', counter: this.state.id, wearable: peer, reason }, peer);
  }

  private refresh(): void {
    const { face, shown } = this;
    faceOf(this.state, this.engine.state('panel'), face);
    if (
      shown !== null &&
      shown.icons === face.icons &&
      shown.value === face.value &&
      shown.second === face.second &&
      shown.screen === face.screen
    ) {
      return;
    }
    this.shown = { ...face };
    this.board.show(displayOf(face));
  }
}
