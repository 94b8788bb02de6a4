// What the names in the chart mean: guards read the wearable's data, effects change it and act.
import { holds } from '../port/cell.js';
import type { Effects, Guards } from '../port/engine.js';
import { acknowledgeAlert, alertIsPending, callAgain, limitPassed } from './alerts.js';
import { settle } from './journal.js';
import { hasRoom } from './ledger.js';
import { keepKey, keyKept, openPairing, sendAccept, sendHello, sendNonce, sendRefusal, showDigits } from './pairing.js';
import type { Parts } from './parts.js';
import { lookLater, sleep, wake } from './power.js';
import { readOut } from './record.js';
import { closeShift, markLong, openShift } from './shifts.js';
import { acknowledgeWaiting } from './tallies.js';
import { checkCounters } from './watch.js';

export function guardsOf(parts: Parts): Guards {
  return {
    ledgerFull: (event) => !hasRoom(parts, Number(event.peer)),
    keyKept: (event) => keyKept(parts, Number(event.counter), Number(event.link)),
    mayKeepKey: (event) => hasRoom(parts, Number(event.counter)),
    digitsShown: () => (parts.state.pairing?.digits ?? -1) !== -1,
    limitPassed: () => limitPassed(parts),
    limitGoesOn: () => limitPassed(parts) && parts.state.anyRunning,
    alertPending: () => alertIsPending(parts),
    shiftStillOpen: () => parts.state.shiftOpen,
    ofThisShift: (event) => event.shift === parts.state.lastShift,
    cellHolds: () => holds(parts.state),
  };
}

export function effectsOf(parts: Parts): Effects {
  return {
    openShift: () => openShift(parts),
    closeShift: () => closeShift(parts),
    markLong: () => markLong(parts),
    openPairing: (event) => openPairing(parts, Number(event.peer)),
    sendHello: () => sendHello(parts),
    sendNonce: () => sendNonce(parts),
    showDigits: () => showDigits(parts),
    keepKey: () => keepKey(parts),
    sendAccept: (event) => sendAccept(parts, Number(event.counter), Number(event.link)),
    endPairing: () => {
      parts.state.pairing = null;
    },
    refuseBusy: (event) => sendRefusal(parts, Number(event.peer), 'busy'),
    refuseFull: (event) => {
      parts.state.refusal = 'full';
      sendRefusal(parts, Number(event.peer), 'full');
    },
    noteRefusal: (event) => {
      parts.state.refusal = String(event.reason);
    },
    callAgain: () => callAgain(parts),
    acknowledge: () => acknowledgeAlert(parts),
    checkCounters: () => checkCounters(parts),
    readOut: () => readOut(parts),
    settle: () => {
      if (settle(parts)) acknowledgeWaiting(parts);
    },
    sleep: () => sleep(parts),
    wake: () => wake(parts),
    waitLonger: () => lookLater(parts),
  };
}
