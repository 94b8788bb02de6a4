// Faults of tallies and acknowledgements (TAL).
import type { Canary } from '../canary.js';

export const TALLIES: readonly Canary[] = [
  {
    name: 'a stop is not told at once but with the next tally of a minute',
    breaks: ['TAL-1', 'WEA-2'],
    file: 'src/counter/chart.ts',
    replace: [
      ["              initial: 'telling',\n              entry: 'tell',\n", "              initial: 'telling',\n"],
    ],
    days: 'rich',
    seed: 29,
  },
  {
    name: 'a tool at rest tells every three minutes',
    breaks: ['TAL-1', 'TAL-6'],
    file: 'src/counter/chart.ts',
    replace: [['  restingTally: 60_000, // TAL-1\n', '  restingTally: 180_000, // TAL-1\n']],
    seed: null,
  },
  {
    name: 'a running tool tells every ten seconds',
    breaks: ['TAL-1', 'WEA-2'],
    file: 'src/counter/chart.ts',
    replace: [['  runningTally: 5_000, // TAL-1\n', '  runningTally: 10_000, // TAL-1\n']],
    seed: 1,
  },
  {
    name: 'a tally says that the tool rests while it runs',
    breaks: ['TAL-1', 'TAL-6', 'WEA-3'],
    file: 'src/counter/telling.ts',
    replace: [['    (state.detector.running ? flags.running : 0) |\n', '']],
    seed: null,
  },
  {
    name: 'after a restart the counter numbers its frames from 1 again',
    breaks: ['TAL-2'],
    file: 'src/counter/journal.ts',
    replace: [
      [
        '    sequence: reserved,\n    reserved,\n    sequenceAtBoot: reserved + 1,\n',
        '    sequence: 0,\n    reserved,\n    sequenceAtBoot: 1,\n',
      ],
    ],
    seed: 3,
  },
  {
    name: 'after a restart the counter goes on with the numbers of the range that it had begun',
    breaks: ['TAL-2'],
    file: 'src/counter/journal.ts',
    replace: [
      [
        '    sequence: reserved,\n    reserved,\n',
        '    sequence: Math.max(0, reserved - RESERVED_AT_ONCE),\n    reserved,\n',
      ],
    ],
    seed: 3,
  },
  {
    name: 'after a restart the wearable numbers its acknowledgements from 1 again',
    breaks: ['TAL-2'],
    file: 'src/wearable/journal.ts',
    replace: [['    sequence: reserved,\n', '    sequence: 0,\n']],
    seed: 2,
  },
  {
    name: 'a report and the tally beside it have the same number',
    breaks: ['TAL-2'],
    file: 'src/counter/telling.ts',
    replace: [
      ['  open.sequence += 1;\n  open.reportAcknowledged = false;\n', '  open.reportAcknowledged = false;\n'],
      ['    sequence: open.sequence,\n    shortBursts', '    sequence: open.sequence + 1,\n    shortBursts'],
    ],
    seed: 1,
  },
  {
    name: 'old tallies are taken, and what they say of the counter’s state is believed',
    breaks: ['TAL-3', 'TAL-4'],
    file: 'src/wearable/tallies.ts',
    replace: [["  if (tally.sequence < link.highest) return 'replayed';\n", '']],
    seed: 2,
  },
  {
    name: 'tallies are taken whatever their number, and the last one counts instead of the largest',
    breaks: ['TAL-3', 'TAL-4'],
    file: 'src/wearable/tallies.ts',
    replace: [
      ["  if (tally.sequence < link.highest) return 'replayed';\n", ''],
      [
        '  if (!merge(link, tally)) return;\n',
        '  merge(link, tally);\n  link.dose = tally.dose;\n  link.triggerWindows = tally.triggerWindows;\n',
      ],
    ],
    seed: 2,
  },
  {
    name: 'a tally that comes twice is added to the shift twice',
    breaks: ['TAL-3', 'WEA-1'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        "    acknowledge(parts, link);\n    return '';\n",
        "    const total = addToShift(parts.state, link, { dose: 0, triggerWindows: 0, unratedWindows: 0 });\n    parts.board.inner.ledger(link, total);\n    acknowledge(parts, link);\n    return '';\n",
      ],
    ],
    seed: 2,
  },
  {
    name: 'a tally that comes twice is not acknowledged again',
    breaks: ['PAI-5', 'TAL-3'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        '    // Told again, word for word: the acknowledgement has not been heard (PAI-5).\n    acknowledge(parts, link);\n',
        '',
      ],
    ],
    days: 'rich',
    seed: 12,
  },
  {
    name: 'a late tally of an old session is charged to the newest session of its counter',
    breaks: ['PAI-3', 'TAL-3'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        '  const { dose, triggerWindows, unratedWindows } = link;\n  if (!merge(link, tally)) return;\n',
        '  const at = newestOf(state, link.counter) ?? link;\n  const { dose, triggerWindows, unratedWindows } = at;\n  if (!merge(at, tally)) return;\n',
      ],
      [
        'addToShift(state, link, { dose, triggerWindows, unratedWindows });\n  keepEntry(parts, link, 1);\n  board.inner.ledger(link, total);',
        'addToShift(state, at, { dose, triggerWindows, unratedWindows });\n  keepEntry(parts, at, 1);\n  board.inner.ledger(at, total);',
      ],
    ],
    seed: 23,
  },
  {
    name: 'the tag of a frame is not checked',
    breaks: ['TAL-4'],
    file: 'src/link/ccm.ts',
    replace: [['    decipher.final();\n', '']],
    keys: true,
    days: 'rich',
    seed: 3,
  },
  {
    name: 'a checksum over the body alone stands for the tag',
    breaks: ['TAL-4'],
    file: 'src/link/mixing.ts',
    replace: [
      [
        'return crc32(body, crc32(header, crc32(nonce, keyed)));',
        'return crc32(body, crc32(header.subarray(7), crc32(nonce.subarray(13), keyed)));',
      ],
    ],
    seed: 3,
  },
  {
    name: 'the pairing’s frames are not checked for bit errors',
    breaks: ['TAL-4', 'PAI-1'],
    file: 'src/link/pairing-frames.ts',
    replace: [
      [
        "  if (checksum !== crc32(frame.subarray(0, kind.bytes - CHECKSUM_BYTES))) return 'checksum';\n",
        "  if (checksum < 0) return 'checksum';\n",
      ],
    ],
    seed: 33,
  },
  {
    name: 'the length of a frame is not looked at',
    breaks: ['TAL-4'],
    file: 'src/link/kinds.ts',
    replace: [["return frame.length === kind.bytes ? kind : 'length';", 'return kind;']],
    days: 'rich',
    seed: 3,
  },
  {
    name: 'frames of a later version are read as if they were of this one',
    breaks: ['TAL-4'],
    file: 'src/link/kinds.ts',
    replace: [
      [
        "  if ((first & 0b111) !== VERSION) return 'version';\n",
        "  if ((first & 0b111) < VERSION) return 'version';\n",
      ],
    ],
    seed: null,
  },
  {
    name: 'a wrong tag is not counted among the refused frames',
    breaks: ['TAL-4'],
    file: 'src/wearable/wearable.ts',
    replace: [
      [
        "    if (reason !== '') this.parts.board.refused(reason);\n",
        "    if (reason !== '' && reason !== 'tag') this.parts.board.refused(reason);\n",
      ],
    ],
    seed: 3,
  },
  {
    name: 'an old acknowledgement is believed: the counter shows the level of then',
    breaks: ['TAL-4', 'TAL-5'],
    file: 'src/counter/receive.ts',
    replace: [["  if (old) return 'replayed';\n", "  if (old && ack.sequence === 0) return 'replayed';\n"]],
    days: 'rich',
    seed: 2,
  },
  {
    name: 'after a restart the counter believes acknowledgements of before it',
    breaks: ['TAL-4', 'TAL-5'],
    file: 'src/counter/receive.ts',
    replace: [
      [
        'ack.sequence <= open.heard || (ack.highest < open.sequenceAtBoot && ack.highestReport < open.sequenceAtBoot);',
        'ack.sequence <= open.heard;',
      ],
    ],
    days: 'rich',
    seed: 124,
  },
  {
    name: 'the counter shows the level of the last acknowledgement for ever',
    breaks: ['TAL-5'],
    file: 'src/counter/chart.ts',
    replace: [["          after: { adviceFades: { target: 'blank', actions: 'forgetAdvice' } }, // TAL-5\n", '']],
    seed: null,
  },
  {
    name: 'after a handover the counter shows the level of the worker before',
    breaks: ['TAL-5', 'PAI-3'],
    file: 'src/counter/chart.ts',
    replace: [["            SEALED: { target: 'blank', actions: 'forgetAdvice' },\n", '']],
    seed: null,
  },
  {
    name: 'an acknowledgement carries the points left to the level that was passed last',
    breaks: ['TAL-5'],
    file: 'src/wearable/tallies.ts',
    replace: [['  const next = levels[state.passed];\n', '  const next = levels[Math.max(0, state.passed - 1)];\n']],
    seed: null,
  },
  {
    name: 'an acknowledgement carries the points left for the dose of its own session',
    breaks: ['TAL-5', 'WEA-1'],
    file: 'src/wearable/tallies.ts',
    replace: [['tenthsLeft(next, shownShift(state)?.dose ?? 0)', 'tenthsLeft(next, link.dose)']],
    seed: null,
  },
  {
    name: 'the minutes left are rounded up',
    breaks: ['TAL-5'],
    file: 'src/counter/face.ts',
    replace: [
      [
        'return Math.floor((state.advice.leftTenths * 300) / (tenths * tenths));',
        'return Math.ceil((state.advice.leftTenths * 300) / (tenths * tenths));',
      ],
    ],
    seed: null,
  },
  {
    name: 'the minutes left are worked out with the magnitude squared in m/s² and the constant for tenths',
    breaks: ['TAL-5'],
    file: 'src/counter/face.ts',
    replace: [['(state.advice.leftTenths * 300)', '(state.advice.leftTenths * 30)']],
    seed: null,
  },
  {
    name: 'the wearable acknowledges the highest number, seen or not: one too many',
    breaks: ['TAL-5', 'PAI-5'],
    file: 'src/wearable/tallies.ts',
    replace: [['    highest: link.highest,\n', '    highest: link.highest + 1,\n']],
    seed: 1,
  },
  {
    name: 'a counter that ran is stale only after 150 s of silence',
    breaks: ['TAL-6'],
    file: 'src/wearable/watch.ts',
    replace: [
      [
        'link.running ? STALE_AFTER_RUNNING_MS : STALE_AFTER_RESTING_MS',
        'link.running ? STALE_AFTER_RESTING_MS : STALE_AFTER_RESTING_MS',
      ],
    ],
    seed: 12,
  },
  {
    name: 'a silent counter is never marked stale',
    breaks: ['TAL-6'],
    file: 'src/wearable/watch.ts',
    replace: [
      [
        '  if (link.sealed || link.stale || !link.confirmed) return Infinity;',
        '  if (link.slot >= 0) return Infinity;',
      ],
    ],
    seed: 1,
  },
  {
    name: 'while a look at silent counters is planned no earlier one is',
    breaks: ['TAL-6'],
    file: 'src/wearable/watch.ts',
    replace: [
      [
        '  if (dueMs >= (state.checkAtMs ?? Infinity)) return;',
        '  if (dueMs === Infinity || state.checkAtMs !== null) return;',
      ],
    ],
    days: 'rich',
    seed: 2,
  },
  {
    name: 'a replayed tally makes a silent counter look live',
    breaks: ['TAL-6', 'TAL-4'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        "  if (tally.sequence < link.highest) return 'replayed';\n",
        "  if (tally.sequence < link.highest) {\n    link.heardMs = parts.nowMs();\n    if (link.stale) markStale(parts, link, false);\n    return 'replayed';\n  }\n",
      ],
    ],
    seed: 2,
  },
  {
    name: 'a counter stays stale although it is heard again',
    breaks: ['TAL-6'],
    file: 'src/wearable/tallies.ts',
    replace: [['  if (link.stale) markStale(parts, link, false);\n', '']],
    seed: 1,
  },
  {
    name: 'the mark of a stale counter is told, and the display has no icon for it',
    breaks: ['TAL-6'],
    file: 'src/wearable/face.ts',
    replace: [['    (state.links.some((link) => link.stale) ? BIT.stale! : 0) |\n', '']],
    seed: null,
  },
  {
    name: 'after a restart the wearable takes old sums for live ones',
    breaks: ['TAL-6', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [['    stale: sums !== undefined && sums.sealed === 0,\n', '    stale: false,\n']],
    seed: 2,
  },
  {
    name: 'dose is believed however fast it rises',
    breaks: ['TAL-7'],
    file: 'src/wearable/tallies.ts',
    replace: [
      ['  if (link.heardMs === null) return true;\n', '  if (link.heardMs === null || link.confirmed) return true;\n'],
    ],
    days: 'rich',
    seed: 140,
  },
  {
    name: 'the most plausible rise of dose is worked out for 5 m/s² instead of 50',
    breaks: ['TAL-7'],
    file: 'src/wearable/tallies.ts',
    replace: [['const MOST_U_PER_MS = MAX_MAGNITUDE_TENTHS * MAX_MAGNITUDE_TENTHS;', 'const MOST_U_PER_MS = 50 * 50;']],
    seed: 12,
  },
  {
    name: 'wrong tags are looked at without a limit',
    breaks: ['TAL-7'],
    file: 'src/port/throttle.ts',
    replace: [['return bad.count >= MAX_BAD_TAGS &&', 'return bad.count >= 1000 * MAX_BAD_TAGS &&']],
    seed: null,
  },
  {
    name: 'after 60 wrong tags nothing is looked at any more',
    breaks: ['TAL-7'],
    file: 'src/port/throttle.ts',
    replace: [
      [
        'return bad.count >= MAX_BAD_TAGS && nowMs - bad.sinceMs < SPAN_MS;',
        'return bad.count >= MAX_BAD_TAGS && nowMs >= bad.sinceMs;',
      ],
    ],
    seed: null,
  },
  {
    name: 'while another wearable is being paired a tally goes to that one',
    breaks: ['TAL-1', 'PAI-3'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'parts.transmit(tally.bytes, open.wearable, tally.message);',
        'parts.transmit(tally.bytes, state.pairing?.peer ?? open.wearable, tally.message);',
      ],
    ],
    days: 'rich',
    seed: 7,
  },
  {
    name: 'trigger time is told at once, and written only where there are two seconds of it',
    breaks: ['TAL-2', 'KEP-1'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'state.tallyWaits = !reserve(parts, open, 2) && parts.board.flash.busy();',
        'const due = open.sequence + 2 > open.reserved || open.sums.triggerWindows - open.kept.triggerWindows >= 20;\n  state.tallyWaits = due && !reserve(parts, open, 2) && parts.board.flash.busy();',
      ],
      [
        'const tally = makeTally(parts, open, open.kept, false);',
        'const tally = makeTally(parts, open, open.sums, false);',
      ],
    ],
    seed: 1,
  },
  {
    name: 'a tool at rest tells nothing more, and a stop whose tally was lost is never told',
    breaks: ['TAL-1', 'TAL-3'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "                telling: {\n                  after: { restingTally: { target: 'telling', reenter: true, actions: 'tell' } },\n                },\n",
        '                telling: {},\n',
      ],
    ],
    seed: 6,
  },
  {
    name: 'tallies of an open session tell its dose in whole tenths of a point',
    breaks: ['TAL-1', 'TAL-3', 'ACC-1'],
    file: 'src/counter/telling.ts',
    replace: [['    dose: sums.dose,\n', '    dose: sealed ? sums.dose : sums.dose - (sums.dose % 18_000_000),\n']],
    seed: 1,
  },
  {
    name: 'an old acknowledgement is refused once the display has taken what it says',
    breaks: ['TAL-4', 'TAL-5'],
    file: 'src/counter/receive.ts',
    replace: [
      [
        "  if (old) return 'replayed';\n",
        "  state.advice = { level: ack.level, leftTenths: ack.leftTenths };\n  if (old) return 'replayed';\n",
      ],
    ],
    seed: 2,
  },
  {
    name: 'a tally that is refused as an old one marks its shift incomplete',
    breaks: ['TAL-4', 'TRG-3'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        "  if (tally.sequence < link.highest) return 'replayed';\n",
        "  if (tally.sequence < link.highest) {\n    markIncomplete(parts, link, 'implausible');\n    return 'replayed';\n  }\n",
      ],
    ],
    seed: 2,
  },
];
