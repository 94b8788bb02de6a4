// The counter's statechart: what it is doing, side by side in six regions. Guards and effects are names; what they mean
// stands in effects.ts. Requirement identifiers stand beside what implements them.
import { setup } from 'xstate';

export const COUNTER_DELAYS_MS = {
  settingSilence: 30_000,
  reviewSilence: 10_000, // MAG-3
  pairingWindow: 30_000, // PAI-1
  comparison: 20_000, // PAI-1
  acceptAgain: 1_000,
  refusalShown: 3_000,
  runningTally: 5_000, // TAL-1
  restingTally: 60_000, // TAL-1
  idleSession: 6 * 3_600_000, // PAI-6
  sealedAgain: 60_000, // PAI-5
  adviceFades: 90_000, // TAL-5
};

export type CounterEvent =
  | { readonly type: 'PUSH' | 'HOLD' }
  | { readonly type: 'TURN'; readonly detents: number }
  | { readonly type: 'TOUCH'; readonly peer: number }
  | { readonly type: 'STARTED' | 'STOPPED' | 'SENSOR_FAULT' | 'SENSOR_GOOD' }
  | { readonly type: 'HELLO'; readonly nonce: number }
  | { readonly type: 'ACCEPT' }
  | { readonly type: 'REFUSE'; readonly reason: string }
  | { readonly type: 'ADVICE' | 'CLOSED' }
  | { readonly type: 'OPENED' | 'SEALED' | 'DELIVERED_ALL' };

const chart = setup({
  types: { events: {} as CounterEvent },
  delays: COUNTER_DELAYS_MS,
  guards: {
    toolRuns: () => false,
    storeFull: () => false,
    somethingToReview: () => false,
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
    sendAccept: () => {},
    openSession: () => {},
    endPairing: () => {},
    sealSession: () => {},
    tell: () => {},
    tellSealed: () => {},
    forgetAdvice: () => {},
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
      on: { HELLO: { target: 'comparing', actions: 'answerHello' } },
    },
    comparing: {
      initial: 'asked',
      after: { comparison: { target: '#resting', actions: 'endPairing' } },
      on: { HELLO: { actions: 'answerHello' } },
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
        none: { on: { OPENED: 'open' } },
        open: {
          initial: 'stopped',
          on: {
            OPENED: { target: 'open', reenter: true }, // PAI-3
            CLOSED: { target: 'none', actions: 'sealSession' }, // PAI-6
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
  },
});
