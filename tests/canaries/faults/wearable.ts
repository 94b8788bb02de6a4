// Faults of the wearable: its shifts, alerts, record and journal (WEA).
import type { Canary } from '../canary.js';

export const WEARABLE: readonly Canary[] = [
  {
    name: 'alerts look at the dose of one session instead of the shift’s',
    breaks: ['WEA-1', 'WEA-2'],
    file: 'src/wearable/tallies.ts',
    replace: [['callLevels(parts, total);', 'callLevels(parts, link.dose);']],
    seed: 9,
  },
  {
    name: 'a tally that passes several levels alerts the first of them only',
    breaks: ['WEA-2'],
    file: 'src/wearable/alerts.ts',
    replace: [['  while (state.passed < levels.length', '  if (state.passed < levels.length']],
    seed: 29,
  },
  {
    name: 'an alert is not repeated',
    breaks: ['WEA-2'],
    file: 'src/wearable/chart.ts',
    replace: [["      after: { alertAgain: { target: 'calling', reenter: true, actions: 'callAgain' } },\n", '']],
    seed: 2,
  },
  {
    name: 'an alert is repeated although it was acknowledged',
    breaks: ['WEA-2'],
    file: 'src/wearable/chart.ts',
    replace: [["          { target: 'quiet', actions: 'acknowledge' },\n", "          { actions: 'acknowledge' },\n"]],
    seed: null,
  },
  {
    name: 'a tap ends the alert of the limit although a tool runs',
    breaks: ['WEA-2'],
    file: 'src/wearable/chart.ts',
    replace: [["          { guard: 'limitGoesOn', actions: 'acknowledge' },\n", '']],
    seed: null,
  },
  {
    name: 'an alert that nobody acknowledged ends when the tool rests',
    breaks: ['WEA-2'],
    file: 'src/wearable/chart.ts',
    replace: [["RESTS: [{ guard: 'alertPending' }, { target: 'quiet' }],", "RESTS: 'quiet',"]],
    seed: 2,
  },
  {
    name: 'a running tool calls for the limit again only where another level is passed',
    breaks: ['WEA-2'],
    file: 'src/wearable/chart.ts',
    replace: [["        RUNS: { guard: 'limitPassed', target: 'calling', actions: 'callAgain' },\n", '']],
    seed: null,
  },
  {
    name: 'an alert that nobody acknowledged is lost in a restart',
    breaks: ['WEA-2', 'WEA-5'],
    file: 'src/wearable/wearable.ts',
    replace: [
      [
        "    parts.send({ type: 'RESUMED' });\n",
        "    if (shift.acknowledged >= state.passed) parts.send({ type: 'RESUMED' });\n",
      ],
    ],
    seed: 2,
  },
  {
    name: 'after a restart every level that is passed is called as if it were new',
    breaks: ['WEA-2', 'WEA-5'],
    file: 'src/wearable/wearable.ts',
    replace: [
      [
        '    state.passed = levelsPassed(parts, shift.dose);\n',
        '    state.passed = Math.min(0, levelsPassed(parts, shift.dose));\n',
      ],
    ],
    seed: 2,
  },
  {
    name: 'that an alert was acknowledged is not kept, and a restart calls again',
    breaks: ['WEA-2', 'WEA-5'],
    file: 'src/wearable/alerts.ts',
    replace: [
      [
        '  shift.acknowledged = parts.state.passed;\n  keepShift(parts, shift);\n',
        '  shift.acknowledged = parts.state.passed;\n',
      ],
    ],
    seed: null,
  },
  {
    name: 'a shift that opens goes on with the levels of the one before as passed',
    breaks: ['WEA-2', 'WEA-3'],
    file: 'src/wearable/shifts.ts',
    replace: [['  state.passed = 0;\n', '']],
    days: 'rich',
    seed: 14,
  },
  {
    name: 'each pairing opens a new shift, and points begin anew',
    breaks: ['WEA-3'],
    file: 'src/wearable/pairing.ts',
    replace: [['shift: state.shiftOpen ? state.lastShift : state.lastShift + 1,', 'shift: state.lastShift + 1,']],
    seed: 1,
  },
  {
    name: 'late dose goes to the shift of now instead of the one in which its session was paired',
    breaks: ['WEA-3', 'PAI-3'],
    file: 'src/wearable/shifts.ts',
    replace: [
      [
        'const shift = state.shifts.find((kept) => kept.shift === link.shift);\n  if (shift === undefined) return 0;',
        'const shift = state.shifts[state.shifts.length - 1];\n  if (shift === undefined) return 0;',
      ],
    ],
    days: 'rich',
    seed: 16,
  },
  {
    name: 'the sum of a closed shift is not updated by late dose',
    breaks: ['WEA-1', 'WEA-3'],
    file: 'src/wearable/shifts.ts',
    replace: [
      [
        '  addSums(shift, link, before);\n  return shift.dose;',
        '  if (!isOver(state, link.shift)) addSums(shift, link, before);\n  return shift.dose;',
      ],
    ],
    days: 'rich',
    seed: 12,
  },
  {
    name: 'the shift’s sum grows by the whole tally each time',
    breaks: ['WEA-1'],
    file: 'src/wearable/shifts.ts',
    replace: [['  addSums(shift, link, before);\n', '  addSums(shift, link, { ...before, dose: 0 });\n']],
    seed: 1,
  },
  {
    name: 'a late tally of a closed shift raises an alert in the one of now',
    breaks: ['WEA-2', 'WEA-3'],
    file: 'src/wearable/tallies.ts',
    replace: [
      [
        '  if (link.shift === shownShift(state)?.shift) callLevels(parts, total);\n',
        '  callLevels(parts, total + (link.shift === shownShift(state)?.shift ? 0 : (shownShift(state)?.dose ?? 0)));\n',
      ],
    ],
    days: 'rich',
    seed: 22,
  },
  {
    name: 'a readout does not close the shift',
    breaks: ['WEA-3'],
    file: 'src/wearable/chart.ts',
    replace: [
      [
        "READOUT: { target: 'closed', actions: ['closeShift', 'readOut'] }, // WEA-3, WEA-4",
        "READOUT: { actions: 'readOut' }, // WEA-3, WEA-4",
      ],
    ],
    seed: null,
  },
  {
    name: 'a shift closes after one idle hour',
    breaks: ['WEA-3'],
    file: 'src/wearable/chart.ts',
    replace: [['  idleShift: 6 * 3_600_000, // WEA-3\n', '  idleShift: 3_600_000, // WEA-3\n']],
    seed: null,
  },
  {
    name: 'six hours in which a tool ran only in bursts between two tallies close the shift',
    breaks: ['WEA-3'],
    file: 'src/wearable/chart.ts',
    replace: [["RAN: { target: 'resting', reenter: true },", 'RAN: {},']],
    days: 'long',
    seed: null,
  },
  {
    name: 'a shift is not closed after six hours in which no tool ran',
    breaks: ['WEA-3'],
    file: 'src/wearable/chart.ts',
    replace: [["          after: { idleShift: { target: '#wearable.shift.closed', actions: 'closeShift' } },\n", '']],
    days: 'long',
    seed: null,
  },
  {
    name: 'the shift is closed by a restart',
    breaks: ['WEA-3', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [['  state.shiftOpen = last?.open === 1;\n', '  state.shiftOpen = last?.open === 2;\n']],
    seed: null,
  },
  {
    name: 'after a restart shifts are numbered from the first again',
    breaks: ['WEA-3', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [['  state.lastShift = last?.shift ?? 0;\n', '  state.lastShift = last?.open === 1 ? last.shift : 0;\n']],
    days: 'rich',
    seed: 28,
  },
  {
    name: 'the record of a shift has the sums of its sessions in it, and after a restart they count twice',
    breaks: ['WEA-1', 'WEA-5', 'KEP-1'],
    file: 'src/wearable/journal.ts',
    replace: [
      ['      ...folded,\n', '      ...shift,\n      counter: folded.counter,\n      session: folded.session,\n'],
    ],
    seed: 12,
  },
  {
    name: 'after a restart a shift has only the dose of its last session',
    breaks: ['WEA-1', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [
      [
        '  addSums(shift, link);\n  shift.openedMs',
        '  Object.assign(shift, { dose: link.dose, triggerWindows: link.triggerWindows });\n  shift.openedMs',
      ],
    ],
    seed: 6,
  },
  {
    name: 'the ledger is written only when numbers of acknowledgements run out',
    breaks: ['WEA-5', 'KEP-1'],
    file: 'src/wearable/journal.ts',
    replace: [
      [
        '  if (!link.unkept && reserved === link.reserved) return true;\n',
        '  if (reserved === link.reserved) return true;\n',
      ],
    ],
    seed: 2,
  },
  {
    name: 'a tally is acknowledged before the ledger holds it in flash',
    breaks: ['WEA-5', 'PAI-5'],
    file: 'src/wearable/tallies.ts',
    replace: [['  if (link.ackWaits) return;\n  const next', '  const next']],
    days: 'worn',
    seed: null,
  },
  {
    name: 'that a session is sealed is forgotten in a restart, and its counter is stale for ever',
    breaks: ['WEA-5', 'TAL-6'],
    file: 'src/wearable/journal.ts',
    replace: [
      ['    sealed: sums?.sealed === 1,\n', '    sealed: false,\n'],
      ['    stale: sums !== undefined && sums.sealed === 0,\n', '    stale: sums !== undefined,\n'],
    ],
    seed: 18,
  },
  {
    name: 'a key is kept in RAM only until its first tally',
    breaks: ['PAI-1', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [
      [
        '  link.kept = put(parts, KEY, link.slot, pack(KEY_BITS, link, link.key));\n',
        '  link.kept = pack(KEY_BITS, link, link.key).length > 0;\n',
      ],
    ],
    seed: 2,
  },
  {
    name: 'the record leaves out sessions that are sealed',
    breaks: ['WEA-4'],
    file: 'src/wearable/record.ts',
    replace: [
      [
        'state.links.filter(({ confirmed }) => confirmed);',
        'state.links.filter(({ confirmed, sealed }) => confirmed && !sealed);',
      ],
    ],
    seed: null,
  },
  {
    name: 'the record’s CRC is taken over its content without its head',
    breaks: ['WEA-4'],
    file: 'src/port/record.ts',
    replace: [['crc32(wrapped) })', 'crc32(body) })']],
    seed: null,
  },
  {
    name: 'the record has the dose of a shift in whole points',
    breaks: ['WEA-4'],
    file: 'src/wearable/record.ts',
    replace: [
      [
        'pack(SHIFT_BITS, { ...shift, open:',
        'pack(SHIFT_BITS, { ...shift, dose: shift.dose - (shift.dose % 180_000_000), open:',
      ],
    ],
    seed: null,
  },
  {
    name: 'a shift is not marked incomplete for a power loss',
    breaks: ['WEA-4', 'KEP-3'],
    file: 'src/wearable/tallies.ts',
    replace: [["  [TALLY_FLAGS.powerLost, 'power lost'],\n", '']],
    seed: null,
  },
  {
    name: 'a tally that raises no dose is not entered, and unrated time never gets to the ledger',
    breaks: ['MAG-6', 'TAL-3'],
    file: 'src/wearable/ledger.ts',
    replace: [
      [
        '    tally.dose > entry.dose ||\n    tally.triggerWindows > entry.triggerWindows ||\n    tally.unratedWindows > entry.unratedWindows;\n',
        '    tally.dose > entry.dose;\n',
      ],
    ],
    seed: 1,
  },
  {
    name: 'while a tool runs its entry is not written, and a restart goes back to the last stop',
    breaks: ['WEA-5', 'KEP-1'],
    file: 'src/wearable/journal.ts',
    replace: [
      [
        '  if (!link.unkept && reserved === link.reserved) return true;\n',
        '  if ((!link.unkept || (link.running && !link.sealed)) && reserved === link.reserved) return true;\n',
      ],
    ],
    days: 'rich',
    seed: 2,
  },
  {
    name: 'unrated time of the ledger does not outlast a restart',
    breaks: ['WEA-5', 'MAG-6'],
    file: 'src/wearable/journal.ts',
    replace: [['    unratedWindows: sums?.unratedWindows ?? 0,\n', '    unratedWindows: 0,\n']],
    days: 'rich',
    seed: 2,
  },
  {
    name: 'after a restart a session counts to the newest shift, not to the one it was paired for',
    breaks: ['WEA-3', 'WEA-5'],
    file: 'src/wearable/journal.ts',
    replace: [
      [
        '  const link = linkFrom(journal, slot, record, sums);\n',
        '  const link = { ...linkFrom(journal, slot, record, sums), shift: state.lastShift };\n',
      ],
    ],
    days: 'rich',
    seed: 2,
  },
];
