// What the names in the chart mean: guards read the wearable's data, effects change it and act.
import type { Effects, Guards } from '../port/engine.js';
import { callAgain, limitPassed } from './alerts.js';
import { hasRoom } from './ledger.js';
import { keepKey, keyKept, mayKeepKey, openPairing, sendAccept, sendHello, showDigits } from './pairing.js';
import type { Parts } from './parts.js';
import { closeShift, markLong, openShift } from './shifts.js';
import { checkCounters } from './watch.js';

export function guardsOf(parts: Parts): Guards {
  return {
    ledgerFull: (event) => !hasRoom(parts.state, Number(event.peer)),
    keyKept: (event) => keyKept(parts, Number(event.from), Number(event.link)),
    mayKeepKey: (event) => mayKeepKey(parts, Number(event.from), Number(event.link)),
    digitsShown: () => (parts.state.pairing?.digits ?? -1) !== -1,
    limitPassed: () => limitPassed(parts),
    limitGoesOn: () => limitPassed(parts) && parts.state.anyRunning,
    alertPending: () => parts.state.acknowledged < parts.state.passed,
  };
}

export function effectsOf(parts: Parts): Effects {
  const refuseBusy = (peer: number) =>
    parts.board.send({ frame: 'refuse', counter: peer, wearable: parts.state.id, reason: 'busy' }, peer);
  return {
    openShift: () => openShift(parts),
    closeShift: () => closeShift(parts),
    markLong: () => markLong(parts),
    openPairing: (event) => openPairing(parts, Number(event.peer)),
    sendHello: () => sendHello(parts),
    showDigits: (event) => showDigits(parts, Number(event.nonce), Number(event.link), Number(event.session)),
    keepKey: () => keepKey(parts),
    sendAccept: (event) => sendAccept(parts, Number(event.from), Number(event.link)),
    endPairing: () => {
      parts.state.pairing = null;
    },
    refuseBusy: (event) => refuseBusy(Number(event.peer)),
    refuseFull: (event) => {
      const counter = Number(event.peer);
      parts.state.refusal = 'full';
      parts.board.send({ frame: 'refuse', counter, wearable: parts.state.id, reason: 'full' }, counter);
    },
    noteRefusal: (event) => {
      parts.state.refusal = String(event.reason);
    },
    callAgain: () => callAgain(parts),
    acknowledge: () => {
      parts.state.acknowledged = parts.state.passed;
    },
    checkCounters: () => checkCounters(parts),
  };
}
