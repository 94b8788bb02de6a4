// The counter's statechart: what it is doing, side by side in eight regions. Guards and effects are names; what they mean
// stands in effects.ts. Requirement identifiers stand beside what implements them.
import { setup } from 'xstate';
import { FLASH } from '../port/flash.js';

export const COUNTER_DELAYS_MS = {
  settingSilence: 30_000,
  reviewSilence: 10_000, // MAG-3
  pairingWindow: 30_000, // PAI-1
  comparison: 20_000, // PAI-1
  acceptAgain: 1_000,
  refusalShown: 3_000,
  runningTally: 5_000, // TAL-1
  runningKept: 5_000, // KEP-1
  restingTally: 60_000, // TAL-1
  idleSession: 6 * 3_600_000, // PAI-6
  sealedAgain: 60_000, // PAI-5
  adviceFades: 90_000, // TAL-5
  erase: FLASH.eraseMs, // KEP-5
};

export type CounterEvent =
  | { readonly type: 'PUSH' | 'HOLD' | 'READOUT' }
  | { readonly type: 'TURN'; readonly detents: number }
  | { readonly type: 'TOUCH'; readonly peer: number }
  | { readonly type: 'STARTED' | 'STOPPED' | 'SENSOR_FAULT' | 'SENSOR_GOOD' }
  | { readonly type: 'HELLO' | 'NONCE' | 'ACCEPT' }
  | { readonly type: 'REFUSE'; readonly reason: string }
  | { readonly type: 'ADVICE' | 'CLOSED' }
  | { readonly type: 'OPENED' | 'SEALED' | 'DELIVERED_ALL' }
  | { readonly type: 'ERASING' }
  | { readonly type: 'CELL_LOW' | 'CELL_CHECK' };

const chart = setup({
  types: { events: {} as CounterEvent },
  delays: COUNTER_DELAYS_MS,
  guards: {
    toolRuns: () => false,
    storeFull: () => false,
    somethingToReview: () => false,
    cellHolds: () => false,
  },
  actions: {
    openSetting: () => {},
    turnRing: () => {},
    discardSetting: () => {},
    commitMagnitude: () => {},
    showRunning: () => {},
    refuseRunning: () => {},
    refuseFull: () => {},
    refuseBusy: () => {},
    sayRunning: () => {},
    noteRefusal: () => {},
    openPairing: () => {},
    answerHello: () => {},
    revealNonce: () => {},
    sendAccept: () => {},
    openSession: () => {},
    endPairing: () => {},
    sealSession: () => {},
    tell: () => {},
    tellSealed: () => {},
    forgetAdvice: () => {},
    keep: () => {},
    settle: () => {},
    readOut: () => {},
    sleep: () => {},
    wake: () => {},
    waitLonger: () => {},
  },
});

/** MAG-2, MAG-3, MAG-4: setting is discarded by a start, by silence, and by nothing else. */
const setting = chart.createStateConfig({
  initial: 'adjusting',
  on: {
    STARTED: { target: 'resting', actions: 'discardSetting' },
    TOUCH: { actions: 'refuseBusy' },
  },
  states: {
    adjusting: {
      after: { settingSilence: { target: '#resting', actions: 'discardSetting' } },
      on: {
        TURN: { target: 'adjusting', reenter: true, actions: 'turnRing' },
        PUSH: { guard: 'somethingToReview', target: 'reviewing' },
      },
    },
    reviewing: {
      after: { reviewSilence: { target: '#resting', actions: 'discardSetting' } },
      on: {
        PUSH: { target: '#resting', actions: 'commitMagnitude' },
        TURN: { target: 'adjusting' },
      },
    },
  },
});

/** PAI-1: 30 s from the touch, 20 s from the digits; whatever ends it early leaves all as before. */
const pairing = chart.createStateConfig({
  initial: 'calling',
  after: { pairingWindow: { target: 'resting', actions: 'endPairing' } },
  on: {
    STARTED: { target: 'resting', actions: ['sayRunning', 'endPairing'] },
    REFUSE: { target: 'refusing', actions: ['endPairing', 'noteRefusal'] },
    TOUCH: { actions: 'refuseBusy' },
  },
  states: {
    calling: {
      on: { HELLO: { target: 'committed', actions: 'answerHello' } },
    },
    // PAI-2: the counter has committed itself to a nonce that it reveals only for the wearable's.
    committed: {
      on: {
        HELLO: { actions: 'answerHello' },
        NONCE: { target: 'comparing', actions: 'revealNonce' },
      },
    },
    comparing: {
      initial: 'asked',
      after: { comparison: { target: '#resting', actions: 'endPairing' } },
      on: { NONCE: { actions: 'revealNonce' } },
      states: {
        asked: {
          on: { PUSH: { target: 'accepted', actions: 'sendAccept' } },
        },
        accepted: {
          after: { acceptAgain: { target: 'accepted', reenter: true, actions: 'sendAccept' } },
          on: { ACCEPT: { target: '#resting', actions: 'openSession' } },
        },
      },
    },
  },
});

export const counterMachine = chart.createMachine({
  id: 'counter',
  type: 'parallel',
  states: {
    trigger: {
      initial: 'stopped',
      states: {
        stopped: { on: { STARTED: 'running' } },
        running: { on: { STOPPED: 'stopped' } },
      },
    },

    sensor: {
      initial: 'good',
      states: {
        good: { on: { SENSOR_FAULT: 'faulty' } }, // TRG-5
        faulty: { on: { SENSOR_GOOD: 'good' } },
      },
    },

    panel: {
      initial: 'resting',
      states: {
        resting: {
          id: 'resting',
          on: {
            HOLD: [
              { guard: 'toolRuns', target: 'refusing', actions: 'showRunning' }, // MAG-2, MAG-4
              { target: 'setting', actions: 'openSetting' },
            ],
            TOUCH: [
              { guard: 'toolRuns', target: 'refusing', actions: ['showRunning', 'refuseRunning'] }, // PAI-1
              { guard: 'storeFull', target: 'refusing', actions: 'refuseFull' }, // PAI-5
              { target: 'pairing', actions: 'openPairing' },
            ],
            READOUT: { actions: 'readOut' }, // PAI-7
          },
        },
        setting,
        pairing,
        refusing: {
          after: { refusalShown: 'resting' },
          on: { TOUCH: { actions: 'refuseBusy' } },
        },
      },
    },

    session: {
      initial: 'none',
      states: {
        // PAI-4: what is counted now is claimed by nobody, and kept all the same.
        none: {
          initial: 'stopped',
          on: { OPENED: 'open' },
          states: {
            stopped: { entry: 'keep', on: { STARTED: 'running' } },
            running: {
              after: { runningKept: { target: 'running', reenter: true, actions: 'keep' } }, // KEP-1
              on: { STOPPED: 'stopped' },
            },
          },
        },
        open: {
          initial: 'stopped',
          on: {
            OPENED: { target: 'open', reenter: true }, // PAI-3
            // PAI-6
            CLOSED: [
              { guard: 'toolRuns', target: '#counter.session.none.running', actions: 'sealSession' },
              { target: 'none', actions: 'sealSession' },
            ],
          },
          states: {
            stopped: {
              initial: 'telling',
              entry: 'tell',
              after: { idleSession: { target: '#counter.session.none', actions: 'sealSession' } }, // PAI-6
              on: { STARTED: 'running' },
              states: {
                telling: {
                  after: { restingTally: { target: 'telling', reenter: true, actions: 'tell' } },
                },
              },
            },
            running: {
              after: { runningTally: { target: 'running', reenter: true, actions: 'tell' } },
              on: { STOPPED: 'stopped' },
            },
          },
        },
      },
    },

    sealed: {
      initial: 'none',
      states: {
        none: { on: { SEALED: { target: 'waiting', actions: 'tellSealed' } } },
        waiting: {
          after: { sealedAgain: { target: 'waiting', reenter: true, actions: 'tellSealed' } }, // PAI-5
          on: {
            SEALED: { target: 'waiting', reenter: true, actions: 'tellSealed' },
            DELIVERED_ALL: 'none',
          },
        },
      },
    },

    advice: {
      initial: 'blank',
      states: {
        blank: { on: { ADVICE: 'fresh' } },
        fresh: {
          after: { adviceFades: { target: 'blank', actions: 'forgetAdvice' } }, // TAL-5
          on: {
            ADVICE: { target: 'fresh', reenter: true },
            SEALED: { target: 'blank', actions: 'forgetAdvice' },
          },
        },
      },
    },

    // KEP-5: while a page is erased nothing can be written; what is to be kept waits, and nothing that is counted stops.
    journal: {
      initial: 'ready',
      states: {
        ready: { on: { ERASING: 'erasing' } },
        erasing: {
          after: { erase: { target: 'ready', actions: 'settle' } },
        },
      },
    },

    // CEL-1: below the safe voltage nothing is kept, so nothing is counted; the counter looks again at growing intervals.
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
