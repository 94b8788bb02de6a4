import { describe, expect, it } from 'vitest';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { BEFORE, type Moment, momentAfter } from '../../src/trace/moment.js';
import { AIR_KEPT } from '../../src/trace/moment-air.js';
import { openSession } from '../../src/trace/moment-tool.js';
import { MadeDay, MINUTE } from './made-day.js';

const fold = (events: readonly TraceEvent[]): Moment => events.reduce(momentAfter, BEFORE);
const day = () => new MadeDay({ saw: 60, drill: 0 }, ['Edda', 'Bram']);
const worker = (moment: Moment, name: string) => moment.workers.find((one) => one.name === name);
const tool = (moment: Moment, name: string) => moment.tools.find((one) => one.name === name);

describe('momentAfter', () => {
  it('never changes the moment it is given', () => {
    const frozen = (moment: Moment): Moment => {
      for (const one of [moment, ...moment.workers, ...moment.tools, ...moment.air]) Object.freeze(one);
      for (const list of [moment.workers, moment.tools, moment.air]) Object.freeze(list);
      for (const one of moment.workers) [one.alerts, one.ledger, one.stale].forEach(Object.freeze);
      return moment;
    };
    const made = day()
      .pair(1000, 'saw', 'Edda')
      .work(2000, 'saw', 'Edda', 30 * MINUTE)
      .tap(9000, 'Edda')
      .events();
    expect(made.reduce((moment, event) => frozen(momentAfter(moment, event)), BEFORE).n).toBe(made.length);
  });

  it('knows the day, its tools and its workers', () => {
    const moment = fold(day().events());
    expect(moment).toMatchObject({ fromMs: 25_200_000, untilMs: 28_800_000, regime: 'gb-2005' });
    expect(tool(moment, 'drill')).toMatchObject({ setTenths: 0, trueTenths: 60, running: null, sessions: [] });
    expect(worker(moment, 'Bram')).toMatchObject({ place: 0, shift: null, dose: 0, ledger: [] });
  });

  it('follows who truly runs a tool', () => {
    const made = day().work(1000, 'saw', 'Bram', 12_000).events();
    const upTo = (atMs: number) => fold(made.filter((event) => event.at <= atMs));
    expect(tool(upTo(1000), 'saw')?.running).toEqual({ by: 'Bram', held: true, sinceMs: 1000 });
    expect(tool(upTo(13_000), 'saw')?.running).toBeNull();
    // Nobody's session was open: 6 m/s² for 12 s, 60² · 12 000 u.
    expect(tool(upTo(13_000), 'saw')?.unclaimed).toMatchObject({ dose: 43_200_000, triggerWindows: 120 });
  });

  it('keeps sessions apart by number and owner', () => {
    const made = day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000).pair(MINUTE, 'saw', 'Bram').events();
    const saw = tool(fold(made), 'saw');
    expect(saw?.sessions).toMatchObject([
      { number: 1, owner: 'Edda', state: 'sealed', dose: 36_000_000 },
      { number: 2, owner: 'Bram', state: 'opened', dose: 0 },
    ]);
    expect(saw && openSession(saw)).toMatchObject({ number: 2 });
  });

  it('learns session, owner, sums and magnitude from tallies alone, as of firmware', () => {
    const made = day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000).events();
    const outward = made
      .filter((event) => !event.kind.startsWith('inner.'))
      .map((event) => (event.kind === 'hand.tool' ? { ...event, keyedTenths: 0 } : event));
    expect(tool(fold(outward), 'saw')).toMatchObject({
      setTenths: 60,
      sessions: [{ number: 1, owner: 'Edda', state: 'opened', dose: 36_000_000, triggerWindows: 100 }],
    });
  });

  it('is not misled by an old frame that is resent', () => {
    const made = day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000).events();
    const first = made.find((event) => event.kind === 'air.tally');
    if (first === undefined) throw new Error('no tally');
    expect(tool(momentAfter(fold(made), first), 'saw')?.sessions[0]?.dose).toBe(36_000_000);
  });

  it('charges late dose to the shift of its session, not to the one that is shown', () => {
    const late = day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000).close(MINUTE, 'Edda');
    late.step(2 * MINUTE, (recorder, atMs) => {
      recorder.add(atMs, 'Edda', 'inner.shift', 0, { shift: 2, what: 'opened' });
      const sums = { counter: 'saw', session: 1, triggerWindows: 110, unratedWindows: 0 };
      recorder.add(atMs, 'Edda', 'inner.ledger', 0, { ...sums, dose: 39_600_000, shift: 1, total: 39_600_000 });
    });
    const edda = worker(fold(late.events()), 'Edda');
    expect(edda).toMatchObject({ dose: 0, shift: { number: 2, closedAtMs: null } });
    expect(edda?.ledger).toMatchObject([{ counter: 'saw', session: 1, shift: 1, dose: 39_600_000 }]);
  });

  it('keeps the last shift after it has closed', () => {
    const made = day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000).close(MINUTE, 'Edda').events();
    expect(worker(fold(made), 'Edda')).toMatchObject({ dose: 36_000_000, shift: { number: 1, closedAtMs: MINUTE } });
  });

  it('holds alerts pending until a tap', () => {
    const raised = day()
      .pair(0, 'saw', 'Edda')
      .work(1000, 'saw', 'Edda', 75 * MINUTE);
    const pending = worker(fold(raised.events()), 'Edda')?.alerts;
    // 6 m/s² makes 72 points an hour: 80 after 66 min 40 s.
    expect(pending).toEqual([{ level: 'notice', atMs: 4_001_000, again: 0, acknowledgedAtMs: null }]);
    raised.step(80 * MINUTE, (recorder, at) =>
      recorder.add(at, 'Edda', 'shown.alert', 0, { again: 1, level: 'notice' }),
    );
    raised.tap(81 * MINUTE, 'Edda');
    expect(worker(fold(raised.events()), 'Edda')?.alerts).toEqual([
      { level: 'notice', atMs: 4_001_000, again: 1, acknowledgedAtMs: 81 * MINUTE },
    ]);
  });

  it('takes a tap on the digits of a pairing for no acknowledgement', () => {
    const raised = day().step(1000, (recorder, at) => {
      recorder.add(at, 'Edda', 'shown.alert', 0, { again: 0, level: 'notice' });
      recorder.add(at, 'Edda', 'shown.display', 0, { icons: [], screen: 'digits', second: -1, value: 4711 });
    });
    expect(worker(fold(raised.tap(2000, 'Edda').events()), 'Edda')?.alerts[0]?.acknowledgedAtMs).toBeNull();
  });

  it('says who is out of reach, and what is stale', () => {
    const gone = day().leave(1000, 'Bram', MINUTE);
    const mark = (atMs: number, on: boolean) =>
      gone.step(atMs, (recorder) => recorder.add(atMs, 'Bram', 'shown.mark', 0, { counter: 'saw', mark: 'stale', on }));
    mark(2000, true);
    mark(70_000, false);
    const made = gone.events();
    const early = worker(fold(made.filter((event) => event.at <= 2000)), 'Bram');
    expect(early).toMatchObject({ place: made.find((event) => event.kind === 'hand.leave')?.n, stale: ['saw'] });
    expect(worker(fold(made), 'Bram')).toMatchObject({ place: 0, stale: [] });
  });

  it('tells what became of the latest frames, and keeps no more than it says', () => {
    const made = day().pair(0, 'saw', 'Edda').leave(0, 'Edda', 7000).work(1000, 'saw', 'Edda', 10_000).events();
    expect(fold(made).air.map(({ sent, fate, reason }) => [sent.kind, sent.at, fate, reason])).toEqual([
      ['air.tally', 6000, 'lost', 'range'],
      ['air.tally', 11_000, 'heard', ''],
      ['air.ack', 11_000, 'heard', ''],
    ]);
    const much = day()
      .pair(0, 'saw', 'Edda')
      .work(1000, 'saw', 'Edda', 10 * MINUTE)
      .events();
    expect(fold(much).air).toHaveLength(AIR_KEPT);
  });

  it('knows a refused frame by the event that heard it, and a doubled one as taken', () => {
    const sent = (copies: number) =>
      day().step(1000, (recorder, at) => {
        const n = recorder.add(at, 'Edda', 'air.pairing', 0, { bytes: '', frame: 'hello', to: 'saw' });
        for (let copy = 0; copy < copies; copy++) {
          const heard = recorder.add(at, 'saw', 'air.heard', n, { frame: 'hello', from: 'Edda' });
          const last = copy === copies - 1;
          if (last) recorder.add(at, 'saw', 'air.refused', heard, { frame: 'hello', from: 'Edda', reason: 'foreign' });
        }
      });
    expect(fold(sent(1).events()).air).toMatchObject([{ fate: 'refused', reason: 'foreign' }]);
    expect(fold(sent(2).events()).air).toMatchObject([{ fate: 'heard', reason: '' }]);
  });

  it('follows the frames of an attacker, and what becomes of them', () => {
    const made = day().step(1000, (recorder, at) => {
      const n = recorder.add(at, 'bench', 'air.injected', 0, { bytes: '00', how: 'flood', to: 'saw' });
      const heard = recorder.add(at + 1, 'saw', 'air.heard', n, { frame: 'injected', from: 'bench' });
      recorder.add(at + 1, 'saw', 'air.refused', heard, { frame: 'injected', from: 'bench', reason: 'length' });
    });
    expect(fold(made.events()).air).toMatchObject([{ sent: { how: 'flood' }, fate: 'refused', reason: 'length' }]);
  });

  it('takes a tap on a wearable that is asleep for no acknowledgement', () => {
    const raised = day().step(1000, (recorder, at) => {
      recorder.add(at, 'Edda', 'shown.alert', 0, { again: 0, level: 'notice' });
      recorder.add(at, 'Edda', 'shown.display', 0, { icons: [], screen: 'asleep', second: -1, value: -1 });
    });
    expect(worker(fold(raised.tap(2000, 'Edda').events()), 'Edda')?.alerts[0]?.acknowledgedAtMs).toBeNull();
  });

  describe('when power was away', () => {
    const cut = (made: MadeDay, atMs: number, name: string) =>
      made.step(atMs, (recorder) => {
        recorder.add(atMs, name, 'fault.cut', 0, { during: 'now' });
        recorder.add(atMs, name, 'shown.display', 0, { icons: [], screen: 'dark', second: -1, value: -1 });
      });
    const back = (made: MadeDay, atMs: number, name: string) =>
      made.step(atMs, (recorder) => recorder.add(atMs, name, 'fault.lifted', 0, { what: 'power' }));
    const sums = { shortBursts: 0, unratedWindows: 0 };
    const worked = () => day().pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000);

    it('knows a counter’s sums to be those that it found, however few', () => {
      const made = back(cut(worked(), MINUTE, 'saw'), 2 * MINUTE, 'saw').step(2 * MINUTE, (recorder, at) => {
        recorder.add(at, 'saw', 'inner.found', 0, { session: 1, what: 'opened', with: 'Edda' });
        recorder.add(at, 'saw', 'inner.count', 0, { ...sums, dose: 18_000_000, session: 1, triggerWindows: 50 });
      });
      const events = made.events();
      const off = tool(fold(events.filter(({ at }) => at <= MINUTE)), 'saw');
      expect(off).toMatchObject({ display: { screen: 'dark' }, sessions: [{ state: 'opened', dose: 36_000_000 }] });
      expect(tool(fold(events), 'saw')?.sessions).toEqual([
        { ...off!.sessions[0], dose: 18_000_000, triggerWindows: 50 },
      ]);
    });

    it('knows a session, and what nobody was charged with, to be gone where the counter does not find it', () => {
      const made = day().work(0, 'saw', 'Edda', 5000).pair(20_000, 'saw', 'Edda').work(30_000, 'saw', 'Edda', 10_000);
      const saw = tool(fold(back(cut(made, MINUTE, 'saw'), 2 * MINUTE, 'saw').events()), 'saw');
      expect(saw).toMatchObject({
        unclaimed: { dose: 0, triggerWindows: 0 },
        sessions: [{ state: 'undone', dose: 0 }],
      });
      expect(saw && openSession(saw)).toBeUndefined();
    });

    it('learns from a tally alone that the session is still open, as of firmware', () => {
      const made = back(cut(worked(), MINUTE, 'saw'), 2 * MINUTE, 'saw').work(3 * MINUTE, 'saw', 'Edda', 10_000);
      const outward = made.events().filter((event) => !event.kind.startsWith('inner.'));
      expect(tool(fold(outward), 'saw')?.sessions).toMatchObject([{ number: 1, state: 'opened', dose: 72_000_000 }]);
    });

    it('leaves a sealed session as it is', () => {
      const made = worked().pair(20_000, 'saw', 'Bram');
      const saw = tool(fold(back(cut(made, MINUTE, 'saw'), 2 * MINUTE, 'saw').events()), 'saw');
      expect(saw?.sessions).toMatchObject([{ state: 'sealed', dose: 36_000_000 }, { state: 'undone' }]);
    });

    it('knows a worker’s shift and dose to be those that the wearable found', () => {
      const resumed = (shift: number, open: boolean, dose: number) =>
        back(cut(worked(), MINUTE, 'Edda'), 2 * MINUTE, 'Edda').step(2 * MINUTE, (recorder, at) =>
          recorder.add(at, 'Edda', 'inner.resumed', 0, { dose, open, shift }),
        );
      const openedAtMs = 0;
      expect(worker(fold(resumed(1, true, 18_000_000).events()), 'Edda')).toMatchObject({
        dose: 18_000_000,
        shift: { number: 1, openedAtMs, closedAtMs: null },
      });
      expect(worker(fold(resumed(1, false, 0).events()), 'Edda')).toMatchObject({
        shift: { number: 1, openedAtMs, closedAtMs: 2 * MINUTE },
      });
      // A shift that the journal did not hold yet: it is the one before that is there.
      expect(worker(fold(resumed(7, true, 5).events()), 'Edda')).toMatchObject({
        dose: 5,
        shift: { number: 7, openedAtMs: 2 * MINUTE, closedAtMs: null },
      });
    });
  });

  it('shows what the displays show', () => {
    const shown = day().step(1000, (recorder, at) =>
      recorder.add(at, 'saw', 'shown.display', 0, { icons: ['running'], screen: 'running', second: -1, value: 12 }),
    );
    const display = { icons: ['running'], screen: 'running', second: -1, value: 12 };
    expect(tool(fold(shown.events()), 'saw')?.display).toEqual(display);
  });
});
