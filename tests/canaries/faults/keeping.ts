// Faults of what is kept through power failures, of clocks, and of cells (KEP, CLK, CEL).
import type { Canary } from '../canary.js';

export const KEEPING: readonly Canary[] = [
  {
    name: 'the journal believes a record whose CRC is wrong',
    breaks: ['KEP-1'],
    file: 'src/journal/layout.ts',
    replace: [["    if (readWord(bytes, end) !== ~crcRegister(checked, bytes, at + 3, end)) return 'torn';\n", '']],
    days: 'rich',
    seed: 18,
  },
  {
    name: 'whatever follows a torn record on its page is not replayed',
    breaks: ['KEP-1'],
    file: 'src/journal/recover.ts',
    replace: [['    while (at < written) {\n', '    while (at < written && this.torn === 0) {\n']],
    days: 'rich',
    seed: 6,
  },
  {
    name: 'of the records of a key the first one counts',
    breaks: ['KEP-1'],
    file: 'src/journal/recover.ts',
    replace: [['    else this.places.set(key,', '    else if (!this.places.has(key)) this.places.set(key,']],
    seed: 2,
  },
  {
    name: 'the pages of the journal are replayed in the order of their numbers as text',
    breaks: ['KEP-1'],
    file: 'src/journal/recover.ts',
    replace: [['.sort((a, b) => is[a]! - is[b]!)', '.sort((a, b) => (String(is[a]) < String(is[b]) ? -1 : 1))']],
    days: 'worn',
    seed: 14,
  },
  {
    name: 'a page is struck out before its live records are copied',
    breaks: ['KEP-1'],
    file: 'src/journal/log.ts',
    replace: [
      [
        '      for (const [key, { value, page: on }] of kept) {\n',
        "      if (!has(pages.worn, page) && this.program(page * FLASH.pageBytes, STRUCK_OUT) === 'refused') return 'refused';\n      for (const [key, { value, page: on }] of kept) {\n",
      ],
    ],
    days: 'worn',
    seed: null,
  },
  {
    name: 'live records are not copied before their page is erased',
    breaks: ['KEP-1'],
    file: 'src/journal/log.ts',
    replace: [['        if (on !== page) continue;\n', '        if (on !== page || value.length > 0) continue;\n']],
    days: 'worn',
    seed: 14,
  },
  {
    name: 'what has been written is not read back, and a bad page keeps nothing',
    breaks: ['KEP-4'],
    file: 'src/journal/log.ts',
    replace: [["return isSame(this.flash.read(address, bytes.length), bytes) ? 'done' : 'bad';", "return 'done';"]],
    days: 'rich',
    seed: 6,
  },
  {
    name: 'what waited for the end of an erase is forgotten',
    breaks: ['KEP-5', 'KEP-1'],
    file: 'src/journal/journal.ts',
    replace: [['      if (!this.isFree() || !this.write(key, value)) break;\n', '']],
    days: 'worn',
    seed: 6,
  },
  {
    name: 'no window is counted while a page is erased',
    breaks: ['KEP-5'],
    file: 'src/counter/counter.ts',
    replace: [
      [
        '    if (state.asleep) return;\n    this.detect(windows);',
        "    if (state.asleep || this.engine.state('journal') === 'erasing') return;\n    this.detect(windows);",
      ],
    ],
    days: 'worn',
    seed: 11,
  },
  {
    name: 'a tally that waits for the end of an erase is told at once, with what is not kept yet',
    breaks: ['TAL-2', 'KEP-5'],
    file: 'src/counter/telling.ts',
    replace: [
      ['state.tallyWaits = !reserve(parts, open, 2) && parts.board.flash.busy();', 'reserve(parts, open, 2);'],
      [
        'const tally = makeTally(parts, open, open.kept, false);',
        'const tally = makeTally(parts, open, open.sums, false);',
      ],
    ],
    days: 'worn',
    seed: null,
  },
  {
    name: 'sums are written only when sequence numbers run out, and tallies state what is counted',
    breaks: ['KEP-1', 'TAL-2'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'state.tallyWaits = !reserve(parts, open, 2) && parts.board.flash.busy();',
        'state.tallyWaits = open.sequence + 2 > open.reserved && !reserve(parts, open, 2) && parts.board.flash.busy();',
      ],
      [
        'const tally = makeTally(parts, open, open.kept, false);',
        'const tally = makeTally(parts, open, open.sums, false);',
      ],
    ],
    seed: 1,
  },
  {
    name: 'a running tool tells and keeps only every minute',
    breaks: ['KEP-1', 'TAL-1', 'TAL-6'],
    file: 'src/counter/chart.ts',
    replace: [['  runningTally: 5_000, // TAL-1\n', '  runningTally: 60_000, // TAL-1\n']],
    seed: 1,
  },
  {
    name: 'what nobody claims is kept only every minute',
    breaks: ['KEP-1', 'PAI-4'],
    file: 'src/counter/chart.ts',
    replace: [['  runningKept: 5_000, // KEP-1\n', '  runningKept: 60_000, // KEP-1\n']],
    seed: 4,
  },
  {
    name: 'after a restart the sums of the open session count as unclaimed too',
    breaks: ['KEP-1', 'PAI-4'],
    file: 'src/counter/journal.ts',
    replace: [
      [
        'Object.assign(state.unclaimed, sumsFrom(journal.get(UNCLAIMED, 0)));',
        'Object.assign(state.unclaimed, sumsFrom(journal.get(UNCLAIMED, 0) ?? journal.get(SUMS, 0)));',
      ],
    ],
    seed: 3,
  },
  {
    name: 'after a failure between two records a session begins with the sums of the one before',
    breaks: ['KEP-1', 'PAI-3'],
    file: 'src/counter/journal.ts',
    replace: [
      ['const mine = fields?.sessionLow === (session & SESSION_LOW) ? fields : undefined;', 'const mine = fields;'],
    ],
    seed: null,
  },
  {
    name: 'a session that was sealed while no other was opened is open again after a restart',
    breaks: ['PAI-3', 'PAI-6', 'KEP-1'],
    file: 'src/counter/journal.ts',
    replace: [
      ['  if (state.sealed.some((sealed) => sealed.session === session)) return null;\n', ''],
      ['noteSealed(parts, sealed);\n  drop(parts, SESSION, 0);', 'noteSealed(parts, sealed);'],
    ],
    seed: 28,
  },
  {
    name: 'the open session is lost in a restart',
    breaks: ['KEP-1', 'PAI-3'],
    file: 'src/counter/journal.ts',
    replace: [['  state.open = openFrom(state, journal);\n', '']],
    seed: 3,
  },
  {
    name: 'power losses are not counted',
    breaks: ['KEP-3'],
    file: 'src/counter/journal.ts',
    replace: [['powerLosses + 1)', 'powerLosses)']],
    seed: 12,
  },
  {
    name: 'a power loss is told only where there is something else to report',
    breaks: ['KEP-3'],
    file: 'src/counter/telling.ts',
    replace: [
      [
        'keptUnclaimed.triggerWindows === 0 && powerLosses === 0) return null;',
        'keptUnclaimed.triggerWindows === 0) return null;',
      ],
    ],
    seed: null,
  },
  {
    name: 'oscillators are off by twice of what is promised',
    breaks: ['CLK-1'],
    file: 'src/bench/clocks.ts',
    replace: [
      ['setRate(state.clock, stage.world.clock.nowMs, ppm)', 'setRate(state.clock, stage.world.clock.nowMs, 2 * ppm)'],
    ],
    seed: 32,
  },
  {
    name: 'the counter falls asleep only 300 mV below the safe voltage',
    breaks: ['CEL-1'],
    file: 'src/port/cell.ts',
    replace: [['return cellMv < SAFE_MV;', 'return cellMv < SAFE_MV - 300;']],
    seed: null,
  },
  {
    name: 'a counter that falls asleep goes on writing to its flash',
    breaks: ['CEL-1'],
    file: 'src/counter/power.ts',
    replace: [['  journal.hold(true);\n', '']],
    seed: null,
  },
  {
    name: 'a counter that starts on a poor cell writes to its flash',
    breaks: ['CEL-1'],
    file: 'src/counter/counter.ts',
    replace: [['    journal.hold(poor);\n', '']],
    seed: null,
  },
  {
    name: 'a counter goes on counting while it sleeps',
    breaks: ['CEL-1'],
    file: 'src/counter/counter.ts',
    replace: [
      ['    if (state.asleep) return this.engine.nextMs();\n', ''],
      ['    if (state.asleep) return;\n    this.detect(windows);', '    this.detect(windows);'],
    ],
    seed: 6,
  },
  {
    name: 'a sleeping counter looks at its cell every second',
    breaks: ['CEL-1'],
    file: 'src/port/cell.ts',
    replace: [['FIRST_LOOK_MS * 2 ** Math.min(MOST_DOUBLINGS, watch.looks)', 'FIRST_LOOK_MS']],
    seed: null,
  },
  {
    name: 'a counter that wakes does not write down what waited',
    breaks: ['CEL-1', 'KEP-1'],
    file: 'src/counter/power.ts',
    replace: [
      [
        "  journal.hold(false);\n  settle(parts);\n  if (state.open === null) keepSums(parts);\n  else send({ type: 'OPENED' });\n",
        '',
      ],
    ],
    days: 'dense',
    seed: 62,
  },
  {
    name: 'a sleeping counter goes on telling',
    breaks: ['CEL-1'],
    file: 'src/counter/counter.ts',
    replace: [
      [
        '        if (!this.parts.state.asleep) board.send(frame, to, meaning);',
        '        board.send(frame, to, meaning);',
      ],
    ],
    seed: 6,
  },
  {
    name: 'a sleeping counter takes in what it hears',
    breaks: ['CEL-1'],
    file: 'src/counter/counter.ts',
    replace: [['    if (this.parts.state.asleep) return;\n    const reason', '    const reason']],
    days: 'dense',
    seed: null,
  },
  {
    name: 'a sleeping wearable takes in what it hears',
    breaks: ['CEL-1'],
    file: 'src/wearable/wearable.ts',
    replace: [['    if (this.parts.state.asleep) return;\n    const reason', '    const reason']],
    days: 'dense',
    seed: 4,
  },
];
