// Faults of pairing and sessions (PAI).
import type { Canary } from '../canary.js';

export const PAIRING: readonly Canary[] = [
  {
    name: 'a handover while a session is open only renews it: the old worker goes on being charged',
    breaks: ['PAI-3'],
    file: 'src/counter/pairing.ts',
    replace: [
      [
        '  if (state.open !== null) seal(parts);\n',
        '  if (state.open !== null) {\n    state.pairing = null;\n    return;\n  }\n',
      ],
      ['import { freeLink, openSession, seal }', 'import { freeLink, openSession }'],
    ],
    seed: null,
  },
  {
    name: 'a handover drops the session that was open instead of sealing it',
    breaks: ['PAI-3', 'PAI-5'],
    file: 'src/counter/pairing.ts',
    replace: [
      ['  if (state.open !== null) seal(parts);\n', ''],
      ['import { freeLink, openSession, seal }', 'import { freeLink, openSession }'],
    ],
    seed: 1,
  },
  {
    name: 'the next session begins with the sums of the one before',
    breaks: ['PAI-3'],
    file: 'src/counter/sessions.ts',
    replace: [
      [
        '  const { state } = parts;\n  state.lastSession',
        '  const { state } = parts;\n  const last = sealedSums(state).at(-1);\n  state.lastSession',
      ],
      [
        '    sums: noSums(),\n',
        '    sums: { ...noSums(), ...(last && { dose: last.dose, triggerWindows: last.triggerWindows }) },\n',
      ],
    ],
    seed: 1,
  },
  {
    name: 'a session that opens takes over what nobody has claimed',
    breaks: ['PAI-4'],
    file: 'src/counter/sessions.ts',
    replace: [['    sums: noSums(),\n', '    sums: { ...state.unclaimed },\n']],
    seed: 4,
  },
  {
    name: 'what is counted outside any session is counted nowhere',
    breaks: ['PAI-4'],
    file: 'src/counter/counter.ts',
    replace: [
      [
        "import { count, countShortBurst } from './meter.js';",
        "import { count, countShortBurst, noSums } from './meter.js';",
      ],
      ['    const sums = state.open?.sums ?? state.unclaimed;\n', '    const sums = state.open?.sums ?? noSums();\n'],
    ],
    seed: 4,
  },
  {
    name: 'what nobody claims does not outlast a restart',
    breaks: ['PAI-4', 'KEP-1'],
    file: 'src/counter/journal.ts',
    replace: [['  Object.assign(state.unclaimed, sumsFrom(journal.get(UNCLAIMED, 0)));\n', '']],
    seed: 12,
  },
  {
    name: 'unclaimed dose is not reported to the wearable',
    breaks: ['PAI-4'],
    file: 'src/counter/telling.ts',
    replace: [
      ['open.sums.shortBursts === 0 && keptUnclaimed.triggerWindows === 0 && ', 'open.sums.shortBursts === 0 && '],
    ],
    seed: null,
  },
  {
    name: 'the counter does not show that dose is unclaimed',
    breaks: ['PAI-4'],
    file: 'src/counter/face.ts',
    replace: [['    (state.unclaimed.triggerWindows > 0 ? BIT.unclaimed! : 0) |\n', '']],
    seed: null,
  },
  {
    name: 'a sealed session is kept in RAM only',
    breaks: ['PAI-5', 'KEP-1'],
    file: 'src/counter/journal.ts',
    replace: [
      [
        '  if (put(parts, SEALED, sealed.slot, pack(SESSION_BITS, sealed, sealed.key, ...frames))) noteSealed(parts, sealed);\n',
        '  if (frames.length > 0) noteSealed(parts, sealed);\n',
      ],
    ],
    days: 'rich',
    seed: 68,
  },
  {
    name: 'a sealed session is forgotten once it has been told',
    breaks: ['PAI-5'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'for (const { bytes, message } of sealed.frames) parts.transmit(bytes, sealed.wearable, message);\n  }\n',
        'for (const { bytes, message } of sealed.frames) parts.transmit(bytes, sealed.wearable, message);\n  }\n  state.sealed = [];\n',
      ],
    ],
    seed: 1,
  },
  {
    name: 'a sealed session is told once and never again',
    breaks: ['PAI-5'],
    file: 'src/counter/chart.ts',
    replace: [
      ["          after: { sealedAgain: { target: 'waiting', reenter: true, actions: 'tellSealed' } }, // PAI-5\n", ''],
    ],
    days: 'rich',
    seed: 12,
  },
  {
    name: 'of several sealed sessions only the newest is told again',
    breaks: ['PAI-5'],
    file: 'src/counter/telling.ts',
    replace: [['  for (const sealed of state.sealed) {\n', '  for (const sealed of state.sealed.slice(-1)) {\n']],
    seed: null,
  },
  {
    name: 'a sealed tally is made anew each time it is told, with the magnitude of now, under its old number',
    breaks: ['PAI-5', 'TAL-2'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'for (const { bytes, message } of sealed.frames) parts.transmit(bytes, sealed.wearable, message);',
        "for (const { message } of sealed.frames) { const now = message.frame === 'tally' ? { ...message, magnitudeTenths: state.rate.tenths } : message; parts.transmit(sealMessage(parts.board.cipher, sealed, now), sealed.wearable, now); }",
      ],
    ],
    days: 'rich',
    seed: 12,
  },
  {
    name: 'sealed sessions are not told again after a restart until another is sealed',
    breaks: ['PAI-5', 'KEP-1'],
    file: 'src/counter/counter.ts',
    replace: [["    if (sealed.length > 0) parts.send({ type: 'SEALED' });\n", '']],
    days: 'rich',
    seed: 68,
  },
  {
    name: 'an acknowledgement lets go of every sealed session of that wearable',
    breaks: ['PAI-5', 'TAL-5'],
    file: 'src/counter/receive.ts',
    replace: [
      [
        "  if (isDelivered(sealed, ack)) letGo(parts, sealed, 'delivered');\n",
        "  if (!isDelivered(sealed, ack)) return '';\n  for (const kept of parts.state.sealed.filter((one) => one.wearable === sealed.wearable)) letGo(parts, kept, 'delivered');\n",
      ],
    ],
    seed: null,
  },
  {
    name: 'an acknowledgement of before the last tally lets its sealed session go',
    breaks: ['PAI-5', 'TAL-5'],
    file: 'src/counter/receive.ts',
    replace: [
      [
        "  if (isDelivered(sealed, ack)) letGo(parts, sealed, 'delivered');\n",
        "  if (ack.sequence > 0) letGo(parts, sealed, 'delivered');\n",
      ],
      ["import { isDelivered, letGo } from './sessions.js';", "import { letGo } from './sessions.js';"],
    ],
    days: 'rich',
    seed: 44,
  },
  {
    name: 'a sealed session is let go before its report is acknowledged',
    breaks: ['PAI-5'],
    file: 'src/counter/sessions.ts',
    replace: [
      [
        "message.frame === 'tally' ? ack.highest >= message.sequence : ack.highestReport >= message.sequence",
        "message.frame === 'report' || ack.highest >= message.sequence",
      ],
    ],
    seed: null,
  },
  {
    name: 'the last tally of a sealed session states what was last kept, without the tail',
    breaks: ['PAI-3', 'ACC-1'],
    file: 'src/counter/sessions.ts',
    replace: [
      [
        'const tally = makeTally(parts, open, open.sums, true);',
        'const tally = makeTally(parts, open, open.kept, true);',
      ],
    ],
    days: 'rich',
    seed: 68,
  },
  {
    name: 'the last tally of a sealed session is not marked as the last',
    breaks: ['PAI-3', 'TAL-1'],
    file: 'src/counter/sessions.ts',
    replace: [
      [
        'const tally = makeTally(parts, open, open.sums, true);',
        'const tally = makeTally(parts, open, open.sums, false);',
      ],
    ],
    seed: null,
  },
  {
    name: 'the session number is kept only with the next power loss, and numbers are given out again after a restart',
    breaks: ['PAI-3'],
    file: 'src/counter/journal.ts',
    replace: [['  keepOwn(parts);\n  put(parts, SESSION, 0', '  put(parts, SESSION, 0']],
    seed: 12,
  },
  {
    name: 'session numbers begin at 1 again after a restart',
    breaks: ['PAI-3'],
    file: 'src/counter/journal.ts',
    replace: [['    state.lastSession = lastSession;\n', '    state.lastSession = Math.min(0, lastSession);\n']],
    seed: 12,
  },
  {
    name: 'the counter opens the session as soon as its own person has accepted',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "on: { PUSH: { target: 'accepted', actions: 'sendAccept' } },",
        "on: { PUSH: { target: '#resting', actions: ['sendAccept', 'openSession'] } },",
      ],
    ],
    seed: 1,
  },
  {
    name: 'the wearable accepts without a tap once the counter has accepted',
    breaks: ['PAI-1'],
    file: 'src/wearable/chart.ts',
    replace: [
      [
        "asked: { on: { TAP: 'tapped' } },",
        "asked: { on: { TAP: 'tapped', ACCEPT: { guard: 'mayKeepKey', target: '#unpaired', actions: ['keepKey', 'sendAccept'] } } },",
      ],
    ],
    seed: null,
  },
  {
    name: 'the wearable takes the counter’s first accept and does not repeat its own',
    breaks: ['PAI-1'],
    file: 'src/wearable/chart.ts',
    replace: [["ACCEPT_AGAIN: { guard: 'keyKept', actions: 'sendAccept' },", 'ACCEPT_AGAIN: {},']],
    seed: null,
  },
  {
    name: 'a start of the tool does not abort a pairing',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [["    STARTED: { target: 'resting', actions: ['sayRunning', 'endPairing'] },\n", '']],
    seed: 4,
  },
  {
    name: 'a running tool can be paired',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "              { guard: 'toolRuns', target: 'refusing', actions: ['showRunning', 'refuseRunning'] }, // PAI-1\n",
        '',
      ],
    ],
    seed: 4,
  },
  {
    name: 'a pairing of the counter never times out',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      ["  after: { pairingWindow: { target: 'resting', actions: 'endPairing' } },\n", ''],
      ["      after: { comparison: { target: '#resting', actions: 'endPairing' } },\n", ''],
    ],
    seed: null,
  },
  {
    name: 'a second touch replaces the pairing that is open',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "    REFUSE: { target: 'refusing', actions: ['endPairing', 'noteRefusal'] },\n    TOUCH: { actions: 'refuseBusy' },\n",
        "    REFUSE: { target: 'refusing', actions: ['endPairing', 'noteRefusal'] },\n    TOUCH: { target: 'pairing', reenter: true, actions: ['endPairing', 'openPairing'] },\n",
      ],
    ],
    seed: null,
  },
  {
    name: 'the digits come from identities, link and session alone',
    breaks: ['PAI-2'],
    file: 'src/link/pairing.ts',
    replace: [
      [
        'joined(DIGITS_LABEL, bytesOfTranscript(transcript))',
        'joined(DIGITS_LABEL, bytesOfTranscript(transcript).subarray(0, 10))',
      ],
    ],
    seed: 12,
  },
  {
    name: 'the counter’s commitment is not checked',
    breaks: ['PAI-2'],
    file: 'src/wearable/pairing.ts',
    replace: [
      [
        'return sameBytes(answer.commitment, commitmentOf(board.cipher, answer.publicKey, publicKey, nonce));',
        'return true;',
      ],
    ],
    seed: null,
  },
  {
    name: 'the wearable takes any answer while a pairing is open, the last one counts',
    breaks: ['PAI-2', 'TAL-4'],
    file: 'src/wearable/receive.ts',
    replace: [
      ['  if (pairing.answer !== null) {\n', '  if (pairing.answer !== null && pairing.peerNonce !== null) {\n'],
    ],
    seed: null,
  },
  {
    name: 'the counter does not seal the session when the wearer has closed the shift',
    breaks: ['PAI-6'],
    file: 'src/counter/receive.ts',
    replace: [["  if (ack.closed) send({ type: 'CLOSED' });\n", '']],
    seed: null,
  },
  {
    name: 'the counter does not seal a session that has been idle for six hours',
    breaks: ['PAI-6'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "              after: { idleSession: { target: '#counter.session.none', actions: 'sealSession' } }, // PAI-6\n",
        '',
      ],
    ],
    days: 'long',
    seed: null,
  },
  {
    name: 'a session is sealed after 36 idle minutes, as a zero is missing',
    breaks: ['PAI-6'],
    file: 'src/counter/chart.ts',
    replace: [['  idleSession: 6 * 3_600_000, // PAI-6\n', '  idleSession: 6 * 360_000, // PAI-6\n']],
    seed: 1,
  },
  {
    name: 'a readout lets go of undelivered sessions without listing them',
    breaks: ['PAI-7'],
    file: 'src/counter/readout.ts',
    replace: [
      ['    sessions: told.length,\n', '    sessions: 0,\n'],
      [
        'pack(COUNTER_RECORD_BITS, head, ...told.map(undelivered))',
        'pack(COUNTER_RECORD_BITS, head, ...told.slice(told.length).map(undelivered))',
      ],
    ],
    seed: null,
  },
  {
    name: 'a counter that has 32 sessions to deliver takes another pairing',
    breaks: ['PAI-5'],
    file: 'src/counter/sessions.ts',
    replace: [['>= MAX_SEALED;', '> MAX_SEALED + 8;']],
    seed: null,
  },
  {
    name: 'while a pairing is open whatever is counted is nobody’s',
    breaks: ['PAI-3', 'PAI-4'],
    file: 'src/counter/counter.ts',
    replace: [
      [
        '    const sums = state.open?.sums ?? state.unclaimed;\n    if (detection',
        '    const claimed = state.pairing === null ? state.open : null;\n    const sums = claimed?.sums ?? state.unclaimed;\n    if (detection',
      ],
      [
        '    parts.board.inner.count(state.open?.session ?? 0, sums);',
        '    parts.board.inner.count(claimed?.session ?? 0, sums);',
      ],
    ],
    days: 'rich',
    seed: 1,
  },
  {
    name: 'a report tells only rated time as unclaimed',
    breaks: ['PAI-4', 'MAG-6'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        '    unclaimedWindows: keptUnclaimed.triggerWindows,\n',
        '    unclaimedWindows: keptUnclaimed.triggerWindows - keptUnclaimed.unratedWindows,\n',
      ],
    ],
    days: 'rich',
    seed: null,
  },
  {
    name: 'a report tells as unclaimed also what no wearable has acknowledged yet',
    breaks: ['PAI-4'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        '    unclaimedDose: keptUnclaimed.dose,\n',
        "    unclaimedDose: state.sealed.reduce((sum, { frames }) => frames.reduce((sum, { message }) => message.frame === 'tally' ? sum + message.dose : sum, sum), keptUnclaimed.dose),\n",
      ],
    ],
    seed: 12,
  },
  {
    name: 'the counter opens the session with its own accept, and goes on asking for the wearable’s',
    breaks: ['PAI-1'],
    file: 'src/counter/pairing.ts',
    replace: [
      [
        "by: 'counter' } as const;\n  transmit(sealMessage(board.cipher, { key, session }, message), peer, message);\n",
        "by: 'counter' } as const;\n  transmit(sealMessage(board.cipher, { key, session }, message), peer, message);\n  if (state.open?.session === session) return;\n  if (state.open !== null) seal(parts);\n  openSession(parts, { ...opened(state.pairing), key });\n  board.inner.session(session, 'opened', peer);\n  parts.send({ type: 'OPENED' });\n",
      ],
    ],
    seed: 3,
  },
  {
    name: 'the counter opens the session once nobody has answered two of its accepts',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "          after: { acceptAgain: { target: 'accepted', reenter: true, actions: 'sendAccept' } },\n          on: { ACCEPT: { target: '#resting', actions: 'openSession' } },\n        },\n",
        "          after: { acceptAgain: { target: 'again', actions: 'sendAccept' } },\n          on: { ACCEPT: { target: '#resting', actions: 'openSession' } },\n        },\n        again: {\n          after: { acceptAgain: { target: '#resting', actions: ['sendAccept', 'openSession'] } },\n          on: { ACCEPT: { target: '#resting', actions: 'openSession' } },\n        },\n",
      ],
    ],
    seed: 49,
  },
  {
    name: 'the counter accepts without a push',
    breaks: ['PAI-1'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "          on: { PUSH: { target: 'accepted', actions: 'sendAccept' } },\n",
        "          on: { PUSH: { target: 'accepted', actions: 'sendAccept' } },\n          after: { acceptAgain: { target: 'accepted', actions: 'sendAccept' } },\n",
      ],
    ],
    days: 'rich',
    seed: null,
  },
  {
    name: 'both have accepted, and the counter opens the session only a second later',
    breaks: ['PAI-1', 'PAI-2'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "          on: { ACCEPT: { target: '#resting', actions: 'openSession' } },\n        },\n",
        "          on: { ACCEPT: 'agreed' },\n        },\n        agreed: { after: { acceptAgain: { target: '#resting', actions: 'openSession' } } },\n",
      ],
    ],
    seed: 1,
  },
  {
    name: 'the counter takes its own accept, sent back to it, for the wearable’s',
    breaks: ['PAI-2', 'TAL-4'],
    file: 'src/counter/receive.ts',
    replace: [
      [
        "message.frame !== 'accept' || message.by !== 'wearable' || !expected",
        "message.frame !== 'accept' || !expected",
      ],
    ],
    seed: 42,
  },
];
