// What the names in the chart mean: guards read the counter's data, effects change it and act.

import { holds } from '../port/cell.js';
import type { Effects, Guards } from '../port/engine.js';
import { keepMagnitude, keepSums, settle } from './journal.js';
import { changeRate } from './meter.js';
import { answerHello, completePairing, openPairing, refusePairing, revealNonce, sendAccept } from './pairing.js';
import type { Parts } from './parts.js';
import { lookLater, sleep, wake } from './power.js';
import { readOut } from './readout.js';
import { seal, storeIsFull } from './sessions.js';
import { turnRing } from './setting.js';
import { tell, tellAfterErase, tellSealed } from './telling.js';

export function guardsOf(parts: Parts): Guards {
  return {
    toolRuns: () => parts.state.detector.running,
    storeFull: () => storeIsFull(parts.state),
    somethingToReview: () => (parts.state.setting?.tenths ?? 0) !== 0,
    cellHolds: () => holds(parts.state),
  };
}

export function effectsOf(parts: Parts): Effects {
  return {
    openSetting: () => {
      parts.state.setting = { tenths: parts.state.rate.tenths, recentMs: [] };
    },
    turnRing: (event) => {
      if (parts.state.setting !== null) turnRing(parts.state.setting, Number(event.detents), parts.nowMs());
    },
    discardSetting: () => {
      parts.state.setting = null;
    },
    commitMagnitude: () => {
      const tenths = parts.state.setting?.tenths ?? 0;
      parts.state.setting = null;
      changeRate(parts.state.rate, tenths, parts.nowMs());
      keepMagnitude(parts);
      parts.board.inner.magnitude(tenths);
    },
    showRunning: () => {
      parts.state.refusal = 'running';
    },
    refuseRunning: (event) => refusePairing(parts, Number(event.peer), 'running'),
    refuseFull: (event) => {
      parts.state.refusal = 'full';
      refusePairing(parts, Number(event.peer), 'full');
    },
    sayRunning: () => {
      if (parts.state.pairing !== null) refusePairing(parts, parts.state.pairing.peer, 'running');
    },
    noteRefusal: (event) => {
      parts.state.refusal = String(event.reason);
    },
    refuseBusy: (event) => refusePairing(parts, Number(event.peer), 'busy'),
    openPairing: (event) => openPairing(parts, Number(event.peer)),
    answerHello: () => answerHello(parts),
    revealNonce: () => revealNonce(parts),
    sendAccept: () => sendAccept(parts),
    openSession: () => completePairing(parts),
    endPairing: () => {
      parts.state.pairing = null;
    },
    sealSession: () => seal(parts),
    tell: () => tell(parts),
    tellSealed: () => tellSealed(parts),
    forgetAdvice: () => {
      parts.state.advice = null;
    },
    keep: () => {
      keepSums(parts);
    },
    settle: () => {
      settle(parts);
      tellAfterErase(parts);
    },
    readOut: () => readOut(parts),
    sleep: () => sleep(parts),
    wake: () => wake(parts),
    waitLonger: () => lookLater(parts),
  };
}
