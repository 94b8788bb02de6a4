// The wearable's statechart: five regions side by side, and a check on silent counters. Guards and effects are names;
// what they mean stands in effects.ts. Requirement identifiers stand beside what implements them.
import { setup } from 'xstate';
import { FLASH } from '../port/flash.js';

export const WEARABLE_DELAYS_MS = {
  idleShift: 6 * 3_600_000, // WEA-3
  longShift: 16 * 3_600_000, // WEA-3
  pairingWindow: 30_000, // PAI-1
  comparison: 20_000, // PAI-1
  helloAgain: 1_000,
  refusalShown: 3_000,
  alertAgain: 30_000, // WEA-2
  erase: FLASH.eraseMs, // KEP-5
};

export type WearableEvent =
  | { readonly type: 'TAP' | 'CLOSE' | 'READOUT' }
  | { readonly type: 'TOUCH'; readonly peer: number }
  | { readonly type: 'ANSWER' | 'REVEAL' | 'BROKEN' }
  /** Of the pairing that is open, and said again for a key that is kept. */
  | { readonly type: 'ACCEPT' | 'ACCEPT_AGAIN'; readonly counter: number; readonly link: number }
  | { readonly type: 'REFUSE'; readonly reason: string }
  | { readonly type: 'PAIRED' | 'NEW_SHIFT' | 'RUNS' | 'RESTS' | 'RAN' | 'LEVEL' | 'CHECK' }
  | { readonly type: 'RESUMED' | 'ERASING' | 'CELL_LOW' | 'CELL_CHECK' }
  | { readonly type: 'LONG'; readonly shift: number };

const chart = setup({
  types: { events: {} as WearableEvent },
  delays: WEARABLE_DELAYS_MS,
  guards: {
    ledgerFull: () => false,
    keyKept: () => false,
    mayKeepKey: () => false,
    digitsShown: () => false,
    limitGoesOn: () => false,
    limitPassed: () => false,
    alertPending: () => false,
    shiftStillOpen: () => false,
    ofThisShift: () => false,
    cellHolds: () => false,
  },
  actions: {
    openShift: () => {},
    closeShift: () => {},
    markLong: () => {},
    openPairing: () => {},
    sendHello: () => {},
    sendNonce: () => {},
    showDigits: () => {},
    keepKey: () => {},
    sendAccept: () => {},
    endPairing: () => {},
    refuseBusy: () => {},
    refuseFull: () => {},
    noteRefusal: () => {},
    callAgain: () => {},
    acknowledge: () => {},
    checkCounters: () => {},
    readOut: () => {},
    settle: () => {},
    sleep: () => {},
    wake: () => {},
    waitLonger: () => {},
  },
});

/** WEA-3: a shift opens with a pairing and closes by the wearer, at a readout, or after 6 h in which no paired tool ran. */
const shift = chart.createStateConfig({
  initial: 'closed',
  states: {
    closed: {
      on: {
        PAIRED: { target: 'open', actions: 'openShift' },
        RESUMED: { guard: 'shiftStillOpen', target: 'open' }, // WEA-5
        READOUT: { actions: 'readOut' }, // WEA-4
      },
    },
    open: {
      initial: 'resting',
      after: { longShift: { actions: 'markLong' } },
      on: {
        CLOSE: { target: 'closed', actions: 'closeShift' },
        READOUT: { target: 'closed', actions: ['closeShift', 'readOut'] }, // WEA-3, WEA-4
        LONG: { guard: 'ofThisShift', actions: 'markLong' }, // WEA-3, of a shift that had begun before a power failure
      },
      states: {
        resting: {
          after: { idleShift: { target: '#wearable.shift.closed', actions: 'closeShift' } },
          on: {
            RUNS: 'running',
            // A burst shorter than the tallies are apart is only heard of once it is over.
            RAN: { target: 'resting', reenter: true },
            PAIRED: { target: 'resting', reenter: true },
          },
        },
        running: { on: { RESTS: 'resting' } },
      },
    },
  },
});

/** PAI-1: the tap that accepts sends nothing yet; the key is kept, and the last frame sent, once the counter has accepted. */
const pairing = chart.createStateConfig({
  initial: 'closed',
  states: {
    closed: {
      id: 'unpaired',
      on: {
        TOUCH: [
          { guard: 'ledgerFull', target: 'refusing', actions: 'refuseFull' }, // PAI-5
          { target: 'open', actions: ['openPairing', 'sendHello'] },
        ],
        ACCEPT_AGAIN: { guard: 'keyKept', actions: 'sendAccept' },
      },
    },
    open: {
      initial: 'calling',
      after: { pairingWindow: { target: 'closed', actions: 'endPairing' } },
      on: {
        TOUCH: { actions: 'refuseBusy' },
        REFUSE: { target: 'refusing', actions: ['endPairing', 'noteRefusal'] },
      },
      states: {
        calling: {
          after: { helloAgain: { target: 'calling', reenter: true, actions: 'sendHello' } },
          on: { ANSWER: { target: 'committed', actions: 'sendNonce' } },
        },
        // PAI-2: the counter has committed itself; it reveals its nonce for the wearable's.
        committed: {
          after: { helloAgain: { target: 'committed', reenter: true, actions: 'sendNonce' } },
          on: {
            REVEAL: { target: 'comparing', actions: 'showDigits' },
            BROKEN: { target: '#unpaired', actions: 'endPairing' },
          },
        },
        comparing: {
          initial: 'asked',
          after: { comparison: { target: '#unpaired', actions: 'endPairing' } },
          states: {
            asked: { on: { TAP: 'tapped' } },
            tapped: {
              on: { ACCEPT: { guard: 'mayKeepKey', target: '#unpaired', actions: ['keepKey', 'sendAccept'] } },
            },
          },
        },
      },
    },
    refusing: {
      after: { refusalShown: 'closed' },
      on: { TOUCH: { actions: 'refuseBusy' } },
    },
  },
});

/** WEA-2: repeated until acknowledged by a tap; past the limit an alert goes on while a paired tool runs. */
const alert = chart.createStateConfig({
  initial: 'quiet',
  states: {
    quiet: {
      on: {
        LEVEL: 'calling',
        RESUMED: { guard: 'alertPending', target: 'calling', actions: 'callAgain' }, // WEA-5
        RUNS: { guard: 'limitPassed', target: 'calling', actions: 'callAgain' },
      },
    },
    calling: {
      after: { alertAgain: { target: 'calling', reenter: true, actions: 'callAgain' } },
      on: {
        LEVEL: { target: 'calling', reenter: true },
        NEW_SHIFT: 'quiet',
        TAP: [
          { guard: 'digitsShown' },
          { guard: 'limitGoesOn', actions: 'acknowledge' },
          { target: 'quiet', actions: 'acknowledge' },
        ],
        RESTS: [{ guard: 'alertPending' }, { target: 'quiet' }],
      },
    },
  },
});

export const wearableMachine = chart.createMachine({
  id: 'wearable',
  type: 'parallel',
  states: {
    shift,
    pairing,
    alert,
    watch: {
      initial: 'watching',
      states: { watching: { on: { CHECK: { actions: 'checkCounters' } } } }, // TAL-6
    },

    // KEP-5: while a page is erased nothing can be written; what is to be kept waits.
    journal: {
      initial: 'ready',
      states: {
        ready: { on: { ERASING: 'erasing' } },
        erasing: { after: { erase: { target: 'ready', actions: 'settle' } } },
      },
    },

    // CEL-1: below the safe voltage nothing can be kept, so nothing is taken in; the wearable looks again at growing intervals.
    power: {
      initial: 'on',
      states: {
        on: { on: { CELL_LOW: { target: 'waiting', actions: 'sleep' } } },
        waiting: {
          on: {
            CELL_CHECK: [{ guard: 'cellHolds', target: 'on', actions: 'wake' }, { actions: 'waitLonger' }],
          },
        },
      },
    },
  },
});
