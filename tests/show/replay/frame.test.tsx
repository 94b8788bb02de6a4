import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { Frame } from '../../../src/show/replay/Frame.js';
import { AT_START, type Player } from '../../../src/show/replay/player.js';
import { type Reel, reelOf } from '../../../src/show/replay/reel.js';
import { HOUR, MadeDay, MINUTE } from '../../trace/made-day.js';
import { crowd } from './crowd.js';
import { widthOf } from './width.js';

const SIZES = [
  [60, 16],
  [80, 24],
  [100, 30],
  [160, 50],
] as const;

/** Workers and tools. */
const CROWDS = [
  [1, 1],
  [1, 8],
  [2, 3],
  [3, 4],
  [4, 8],
  [5, 2],
  [6, 1],
  [6, 8],
] as const;

/** A machine that is busy with other tests takes its time. */
const SLOW_MS = 30_000;

function draw(
  reel: Reel,
  atMs: number,
  [columns, rows]: readonly [number, number],
  more: Partial<Player> = {},
): string[] {
  const player = { ...AT_START, atMs, ...more };
  return renderToString(<Frame reel={reel} player={player} columns={columns} rows={rows} />, { columns }).split('\n');
}

function expectToFit(lines: readonly string[], [columns, rows]: readonly [number, number]): void {
  expect(lines.length).toBeLessThanOrEqual(rows - 1);
  for (const line of lines) expect(widthOf(line), line).toBeLessThanOrEqual(columns);
  // Nothing was cut off below: the help line is there, and the caution.
  expect(lines.at(-1)).toContain('q quit');
  expect(lines.join('\n')).toMatch(/measur\w+ (instrument|nothing).*there is still risk/i);
}

describe('Frame', () => {
  const short = crowd({ workers: 3, tools: 4, notes: true });

  it.each(SIZES)('fits %i × %i for one to six workers and one to eight tools', { timeout: SLOW_MS }, (...size) => {
    for (const [workers, tools] of CROWDS) {
      const reel = crowd({ workers, tools, notes: tools > 1 });
      for (const atMs of [0, 45 * MINUTE, 8 * HOUR]) {
        const lines = draw(reel, atMs, size);
        expectToFit(lines, size);
        for (const { worker } of reel.courses) expect(lines.join('\n')).toContain(worker);
      }
      expectToFit(draw(reel, HOUR, size, { chartAlone: true }), size);
    }
  });

  it.each(SIZES)('fits %i × %i with long names, titles and notes', { timeout: SLOW_MS }, (...size) => {
    for (const workers of [1, 3, 6]) {
      const reel = crowd({ workers, tools: 8, long: true, notes: true });
      for (const atMs of [0, 45 * MINUTE, 8 * HOUR]) expectToFit(draw(reel, atMs, size), size);
    }
  });

  it('fits with names whose letters fill two columns', () => {
    const day = new MadeDay({ 削岩機: 120, 研磨機: 40 }, ['墨田', '荒川']).pair(0, '削岩機', '墨田');
    const events = day.work(MINUTE, '削岩機', '墨田', HOUR).events();
    for (const size of SIZES) expectToFit(draw(reelOf({ title: '水門の一日', events, notes: [] }), HOUR, size), size);
  });

  it('fits more people than there are rows, and says how many it left out', () => {
    const names = Array.from({ length: 30 }, (_, index) => `worker ${index}`);
    const events = new MadeDay({ saw: 60, drill: 40 }, names).events();
    const lines = draw(reelOf({ title: 'Thirty', events, notes: [] }), 0, [80, 24]);
    expectToFit(lines, [80, 24]);
    expect(lines.join('\n')).toMatch(/… and \d+ more/);
  });

  it('asks for a larger terminal where it is too small, and still fits', () => {
    for (const size of [
      [40, 24],
      [80, 10],
      [20, 3],
    ] as const) {
      const lines = draw(short, 0, size);
      expect(lines.length).toBeLessThan(size[1]);
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(size[0]);
    }
    expect(draw(short, 0, [40, 24]).join(' ')).toContain('The replay needs');
  });

  it('shows the time of day in large digits: 07:00 plus 45 min', () => {
    expect(draw(short, 45 * MINUTE, [80, 24]).slice(0, 3)).toEqual([
      expect.stringMatching(/^ █▀█ ▀▀█ ▄ █ █ █▀▀ /),
      expect.stringMatching(/^ █ █ {3}█ ▄ ▀▀█ ▀▀█ /),
      expect.stringMatching(/^ ▀▀▀ {3}▀ {5}▀ ▀▀▀ :00/),
    ]);
  });

  it('names the second day past midnight', () => {
    const events = new MadeDay({ saw: 60 }, ['Edda'], { fromMs: 23 * HOUR, untilMs: 4 * HOUR }).events();
    const night = reelOf({ title: 'A night at the lock', events, notes: [] });
    expect(draw(night, 59 * MINUTE, [80, 24])[0]).not.toContain('day');
    const [first, second, third] = draw(night, 61 * MINUTE, [80, 24]);
    expect(first).toMatch(/^ █▀█ █▀█ ▄ █▀█ ▄█ {2}day 2 /);
    expect(second).toMatch(/ 23:00 .* 03:00$/);
    expect(third).toMatch(/:00/);
  });

  it('shows a note once its time has come', () => {
    expect(draw(short, 29 * MINUTE, [80, 24]).join('\n')).not.toContain('Why has Bram');
    expect(draw(short, 30 * MINUTE, [80, 24]).join('\n')).toContain(
      "07:30  Why has Bram no points?  This session opened with Edda's",
    );
  });

  it('shows points, A(8) and what is left, in a caption or beside the ruler', () => {
    // 15 m/s² makes 7.5 points a minute; half an hour of it was heard before Edda left: 225 points.
    const at = 45 * MINUTE;
    expect(draw(crowd({ workers: 3, tools: 3 }), at, [80, 24]).join('\n')).toMatch(
      /E Edda .* 225\n +A\(8\) 3\.75 m\/s² {2}past EAV {2}175 to ELV {2}alert: EAV, away/,
    );
    const beside = draw(crowd({ workers: 6, tools: 6 }), at, [80, 24]).join('\n');
    expect(beside).toMatch(/E Edda +225 .* 3\.75 +past +175 +alert/);
    // Five more minutes are on the counter and not on the wearable.
    expect(draw(crowd({ workers: 3, tools: 3 }), at, [100, 30]).join('\n')).toMatch(/away {2}3\d on the way/);
  });

  it('says of points that were read out of a counter that they come no more', () => {
    const day = new MadeDay({ saw: 60 }, ['Edda', 'Bram']).pair(0, 'saw', 'Edda').leave(1, 'Edda', 50 * MINUTE);
    day.work(MINUTE, 'saw', 'Edda', 10 * MINUTE).pair(12 * MINUTE, 'saw', 'Bram');
    day.step(20 * MINUTE, (recorder, at) => {
      const n = recorder.add(at, 'saw', 'input.readout', 0, {});
      recorder.add(at, 'saw', 'shown.record', n, { bytes: '' });
      recorder.add(at, 'saw', 'inner.session', n, { session: 1, what: 'read out', with: 'Edda' });
    });
    const reel = reelOf({ title: 'A readout', events: day.events(), notes: [] });
    const at = (minutes: number) => draw(reel, minutes * MINUTE, [160, 50]).join('\n');
    expect(at(19)).toMatch(/away {2}12 on the way/);
    expect(at(20)).not.toContain('on the way');
    expect(at(20)).toMatch(/400 to ELV {2}12 only in a readout {2}away/);
    expect(at(20)).toMatch(/07:20:00 {3}saw is read out: session 1/);
  });

  it('never shows time without a magnitude as zero points (MAG-6)', () => {
    const rows = draw(crowd({ workers: 3, tools: 3 }), 45 * MINUTE, [80, 24]);
    const bram = rows.findIndex((row) => row.startsWith(' B Bram'));
    expect(rows[bram]).toMatch(/–$/);
    expect(rows[bram + 1]).toMatch(/A\(8\) – m\/s² {2}unrated: 34 min/);
    expect(draw(crowd({ workers: 6, tools: 6 }), 45 * MINUTE, [80, 24]).join('\n')).toMatch(
      /B Bram +– .* – +– +– +unrated/,
    );
  });

  it('shows each tool: who runs it, for whom, set to what, how long, and its share', () => {
    const rows = draw(crowd({ workers: 3, tools: 3 }), 45 * MINUTE, [100, 30]);
    expect(rows.find((row) => row.startsWith(' breaker'))).toMatch(
      /● Edda runs it +Edda +15\.0 +23 min to ELV +100% +· +·/,
    );
    expect(rows.find((row) => row.startsWith(' grinder'))).toMatch(/● Bram runs it +Bram +unset +not rated +· +· +·/);
    expect(draw(short, 0, [100, 30]).find((row) => row.startsWith(' breaker'))).toMatch(/○ at rest +no one +15\.0 +–/);
  });

  it('shows alerts as they fall, and what was lost over the air', () => {
    const reel = crowd({ workers: 3, tools: 3 });
    expect(draw(reel, 20 * MINUTE, [160, 50]).join('\n')).toContain('none yet');
    const later = draw(reel, 45 * MINUTE, [160, 50]).join('\n');
    expect(later).toMatch(/! 07:23 Ilse reaches the EAV *$/m);
    expect(later).toMatch(/07:23:\d\d ! Edda reaches the EAV, not acknowledged/);
    expect(later).toMatch(/breaker → Edda {2}tally {2}lost: out of reach {2}×\d+ {2}[\d.]+ po/);
    expect(draw(reel, 61 * MINUTE, [160, 50]).join('\n')).not.toContain('Edda reaches the EAV, not');
  });

  describe('of a day on which much goes wrong', () => {
    const dark = { icons: [], screen: 'dark', second: -1, value: -1 };
    const day = new MadeDay({ saw: 150, 'breaker of the upper gate': 60 }, ['Edda', 'Bram']).pair(0, 'saw', 'Edda');
    day.work(MINUTE, 'saw', 'Edda', 30 * MINUTE);
    for (const [minute, name] of [
      [10, 'saw'],
      [20, 'Edda'],
    ] as const) {
      day.step(minute * MINUTE, (recorder, at) => {
        const cut = recorder.add(at, name, 'fault.cut', 0, { during: 'write' });
        recorder.add(at, name, 'shown.display', cut, dark);
      });
    }
    day.step(24 * MINUTE, (recorder, at) => {
      recorder.add(at, 'Bram', 'shown.display', 0, { ...dark, screen: 'asleep' });
      recorder.add(at, 'saw', 'fault.attack', 0, { everyMs: 1000, how: 'forge', worker: 'Edda' });
      const n = recorder.add(at, 'bench', 'air.injected', 0, { bytes: '00', how: 'forge', to: 'Edda' });
      const heard = recorder.add(at, 'Edda', 'air.heard', n, { frame: 'injected', from: 'bench' });
      recorder.add(at, 'Edda', 'air.refused', heard, { frame: 'injected', from: 'bench', reason: 'tag' });
      const key = recorder.add(at, 'saw', 'air.pairing', 0, { bytes: '00', frame: 'key', to: 'Bram' });
      recorder.add(at, 'saw', 'air.lost', key, { frame: 'key', reason: 'intercepted', to: 'Bram' });
      recorder.add(at, 'saw', 'hand.nothing', 0, { reason: 'digits differ', verb: 'pair' });
    });
    const reel = reelOf({ title: 'A rough day', events: day.events(), notes: [] });

    it.each(SIZES)('fits %i × %i', (...size) => {
      for (let minute = 0; minute <= 60; minute += 4) expectToFit(draw(reel, minute * MINUTE, size), size);
    });

    it('says what has no power, or sleeps, and shows no points of it as if they were live', () => {
      const rows = draw(reel, 25 * MINUTE, [100, 30]);
      expect(rows.find((row) => row.startsWith(' saw'))).toMatch(/● Edda runs it +Edda +15\.0 +no power /);
      const edda = rows.findIndex((row) => row.startsWith(' E Edda'));
      expect(rows[edda]).toMatch(/ \(\d+\)$/);
      expect(rows[edda + 1]).toMatch(/ELV {2}no power, alert: EAV/);
      const bram = rows.findIndex((row) => row.startsWith(' B Bram'));
      expect(rows[bram]).toMatch(/ \(0\)$/);
      expect(rows[bram + 1]).toMatch(/asleep, no shift/);
      const before = draw(reel, 9 * MINUTE, [100, 30]).join('\n');
      expect(before).not.toMatch(/no power|asleep|\(\d+\)$/m);
    });

    it('tells of it in the log, and of an attacker’s frames', () => {
      const log = draw(reel, 25 * MINUTE, [160, 50]).join('\n');
      expect(log).toMatch(/07:10:00 {3}saw its power fails within a write to its flash/);
      expect(log).toMatch(/07:24:00 {3}Bram sleeps: its cell is too low/);
      expect(log).toMatch(/07:24:00 {3}saw somebody sends forged frames between it and Edda/);
      expect(log).toMatch(/attacker → Edda {2}forged frame {2}refused \(tag\)/);
      expect(log).toMatch(/saw → Bram {2}key {2}kept back by an attacker/);
      expect(log).toMatch(/07:24:00 {3}saw "pair" comes to nothing: digits differ/);
      expect(draw(reel, 25 * MINUTE, [80, 24]).join('\n')).toMatch(/saw → Bram key kept back/);
    });
  });

  it('gives the chart the room of the tools where only the chart is wanted', () => {
    const both = draw(short, HOUR, [80, 24]).join('\n');
    const alone = draw(short, HOUR, [80, 24], { chartAlone: true }).join('\n');
    expect(both).toMatch(/tool +state/);
    expect(alone).not.toMatch(/tool +state/);
    expect(alone.split('│').length).toBeGreaterThan(both.split('│').length);
  });

  it('shows no chart of what is yet to come', () => {
    const chart = (atMs: number) =>
      draw(short, atMs, [80, 24])
        .join('\n')
        .replace(/[^⠁-⣿]/g, '').length;
    expect(chart(0)).toBe(0);
    expect(chart(4 * HOUR)).toBeGreaterThan(chart(HOUR));
    expect(chart(8 * HOUR)).toBeGreaterThan(chart(4 * HOUR));
  });

  it('draws the same for the same, however it came there', () => {
    const there = draw(short, HOUR, [100, 30]);
    draw(short, 8 * HOUR, [100, 30]);
    expect(draw(short, HOUR, [100, 30])).toEqual(there);
  });
});
