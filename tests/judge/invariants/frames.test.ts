// The invariants of frames on the air (TAL-2, TAL-4, TAL-5, TAL-7, PAI-2): what is heard, refused, numbered and acknowledged.
import { describe, expect, it } from 'vitest';
import { acknowledgedIsCharged } from '../../../src/judge/invariants/acknowledged-is-charged.js';
import { acksTakenOnce } from '../../../src/judge/invariants/acks-taken-once.js';
import { heardWasSent } from '../../../src/judge/invariants/heard-was-sent.js';
import { noSuddenDose } from '../../../src/judge/invariants/no-sudden-dose.js';
import { nonceUsedOnce } from '../../../src/judge/invariants/nonce-used-once.js';
import { openedByItsWearable } from '../../../src/judge/invariants/opened-by-its-wearable.js';
import { refusedChangesNothing } from '../../../src/judge/invariants/refused-changes-nothing.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

function opened(): DayTrace {
  const day = new DayTrace();
  day.session(MINUTE, 'opened');
  return day;
}

function inject(day: DayTrace, at: number, bytes: string, how = 'alter', to = 'Edda'): number {
  const sent = day.add(at, 'bench', 'air.injected', { bytes, how, to });
  return day.heard(at + 1, sent, { frame: 'injected', from: 'bench' }, to);
}

function refuse(day: DayTrace, at: number, heard: number, reason = 'tag', by = 'Edda'): number {
  return day.add(at, by, 'air.refused', { frame: 'injected', from: 'bench', reason }, heard);
}

describe('no frame is taken that was not sent', () => {
  it('is the frame of its sender, for its receiver, as often as it arrives', () => {
    const day = opened();
    const tally = day.tally(2 * MINUTE, 1);
    day.heard(2 * MINUTE + 5, tally);
    day.heard(2 * MINUTE + 9, tally);
    const hello = day.pairing(3 * MINUTE, 'hello', 'Edda', 'breaker');
    day.heard(3 * MINUTE, hello, { frame: 'hello', from: 'Edda' }, 'breaker');
    day.heard(4 * MINUTE, day.ack(4 * MINUTE, 1), { frame: 'ack', from: 'Edda' }, 'breaker');
    expect(told(heardWasSent, day)).toEqual([]);
  });

  it.each([
    ['another frame', { frame: 'report' }, 'Edda'],
    ['another sender', { from: 'saw' }, 'Edda'],
    ['another receiver', {}, 'Bram'],
  ])('tells of %s', (_, fields, by) => {
    const day = opened();
    day.heard(2 * MINUTE, day.tally(2 * MINUTE, 1), fields, by);
    expect(told(heardWasSent, day)[0]).toMatch(/^wrong: \w+ heard \w+ from \w+, which did not send it$/);
  });

  it('tells of a frame out of nothing', () => {
    const day = opened();
    day.heard(2 * MINUTE, 0);
    day.heard(2 * MINUTE, 3);
    expect(told(heardWasSent, day)).toContain('wrong: Edda heard tally from breaker, which did not send it');
  });

  it('refuses a damaged frame, and one that somebody made up, before anything else', () => {
    const damaged = (refused: boolean) => {
      const day = opened();
      const heard = day.heard(2 * MINUTE, day.tally(2 * MINUTE, 1), { frame: 'damaged' });
      if (refused)
        day.add(2 * MINUTE, 'Edda', 'air.refused', { frame: 'damaged', from: 'breaker', reason: 'tag' }, heard);
      return told(heardWasSent, day);
    };
    expect(damaged(true)).toEqual([]);
    expect(damaged(false)).toEqual([expect.stringMatching(/^wrong: Edda has taken the damaged frame that came with/)]);
    const made = (between: boolean, by = 'Edda') => {
      const day = opened();
      const heard = inject(day, 2 * MINUTE, 'beef');
      if (between) day.ledger(2 * MINUTE + 1, 5);
      refuse(day, 2 * MINUTE + 1, heard, 'tag', by);
      return told(heardWasSent, day).length;
    };
    expect([made(false), made(true), made(false, 'Bram')]).toEqual([0, 1, 1]);
  });

  it('may take a genuine frame that is said again, word for word, to whom it was said', () => {
    const replayed = (to: string) => {
      const day = opened();
      day.tally(2 * MINUTE, 1, { bytes: 'cafe' });
      inject(day, 3 * MINUTE, 'cafe', 'replay', to);
      return told(heardWasSent, day).length;
    };
    expect([replayed('Edda'), replayed('breaker'), replayed('Bram')]).toEqual([0, 1, 1]);
  });

  it('may answer somebody in the middle of a pairing, and need not answer asleep', () => {
    const middle = opened();
    inject(middle, 2 * MINUTE, 'beef', 'middle');
    expect(told(heardWasSent, middle)).toEqual([]);
    const asleep = opened();
    asleep.display(MINUTE, 'Edda', { screen: 'asleep' });
    inject(asleep, 2 * MINUTE, 'beef');
    expect(told(heardWasSent, asleep)).toEqual([]);
  });

  it('may take a refusal of a pairing from either side, as it names none', () => {
    const day = opened();
    day.add(2 * MINUTE, 'Edda', 'air.pairing', { bytes: 'abba', frame: 'refuse', to: 'breaker' });
    inject(day, 3 * MINUTE, 'abba', 'alter', 'Edda');
    expect(told(heardWasSent, day)).toEqual([]);
  });
});

describe('a refused frame changes nothing', () => {
  const refused = (reason: string, more: (day: DayTrace, at: number, heard: number) => void, first = false) => {
    const day = opened();
    const heard = inject(day, 2 * MINUTE, 'beef');
    if (first) more(day, 2 * MINUTE + 1, heard);
    refuse(day, 2 * MINUTE + 1, heard, reason);
    if (!first) more(day, 2 * MINUTE + 1, heard);
    return told(refusedChangesNothing, day);
  };
  const charges = (day: DayTrace, at: number, heard: number) =>
    day.add(at, 'Edda', 'inner.incomplete', { counter: 'breaker', shift: 1, why: 'implausible' }, heard);
  const aborts = (day: DayTrace, at: number, heard: number) =>
    day.add(at, 'Edda', 'inner.state', { region: 'pairing', state: 'closed' }, heard);

  it('but what happens for another reason is its own', () => {
    expect(refused('tag', (day, at) => day.ledger(at, 5))).toEqual([]);
  });

  it('before it is refused or after', () => {
    const wrong = ['wrong: Edda refused injected from bench as tag, and inner.state came of it'];
    expect([refused('tag', aborts), refused('tag', aborts, true)]).toEqual([wrong, wrong]);
  });

  it('but a broken commitment ends the pairing (PAI-2), and an implausible dose marks the shift (TAL-7)', () => {
    expect([refused('commitment', aborts), refused('implausible', charges, true)]).toEqual([[], []]);
    expect([refused('commitment', charges), refused('implausible', aborts)].map(({ length }) => length)).toEqual([
      1, 1,
    ]);
  });
});

describe('no number is used for two frames (TAL-2)', () => {
  const sent = (more: (day: DayTrace) => void) => {
    const day = opened();
    day.tally(2 * MINUTE, 1, { bytes: 'aa' });
    more(day);
    return told(nonceUsedOnce, day);
  };

  it('but one frame may be told again', () => {
    expect(sent((day) => day.tally(3 * MINUTE, 1, { bytes: 'aa' }))).toEqual([]);
    expect(sent((day) => day.tally(3 * MINUTE, 1, { bytes: 'ab' }))).toEqual([
      'wrong: breaker has numbered two frames of session 1 to Edda 1',
    ]);
  });

  it('nor for a tally and a report, but for the two directions', () => {
    expect(sent((day) => day.report(3 * MINUTE, { bytes: 'ab' }))).toHaveLength(1);
    expect(sent((day) => day.ack(3 * MINUTE, 1, { bytes: 'ab' }))).toEqual([]);
    const acks = (day: DayTrace) => {
      day.ack(3 * MINUTE, 1, { bytes: 'ab' });
      day.ack(3 * MINUTE, 1, { bytes: 'ac' });
    };
    expect(sent(acks)).toEqual(['wrong: Edda has numbered two frames of session 1 to breaker 1']);
  });

  it('and each session has numbers of its own', () => {
    expect(sent((day) => day.tally(3 * MINUTE, 1, { bytes: 'ab', session: 2 }))).toEqual([]);
  });
});

describe('what is acknowledged is on the ledger (PAI-5)', () => {
  const acknowledged = (charged: number, highest = 2) => {
    const day = opened();
    day.tally(2 * MINUTE, 5, { sequence: 1 });
    day.tally(3 * MINUTE, 10, { sequence: 2 });
    if (charged > 0) day.ledger(3 * MINUTE, charged);
    day.ack(3 * MINUTE, highest);
    return told(acknowledgedIsCharged, day);
  };

  it('up to the number that is named', () => {
    expect([acknowledged(10), acknowledged(5, 1)]).toEqual([[], []]);
    expect(acknowledged(9)).toEqual([
      'wrong: Edda acknowledges number 2 of session 1 of breaker, 14400000 u in 10 windows, 0 of them unrated, and has ' +
        '12960000 u in 9 windows, 0 of them unrated',
    ]);
    expect(acknowledged(0)).toHaveLength(1);
  });

  it('and only what was told', () => {
    expect(acknowledged(10, 3)).toEqual([
      'wrong: Edda acknowledges number 3 of session 1 of breaker, which was never a tally',
    ]);
    const nothing = opened();
    nothing.ack(2 * MINUTE, 1);
    expect(told(acknowledgedIsCharged, nothing)).toEqual([
      'wrong: Edda acknowledges link 9 of breaker, which told nothing',
    ]);
  });
});

describe('no dose is charged faster than any tool makes it (TAL-7)', () => {
  /** Edda's wearable hears of the breaker at 07:02, and so much later of so many u more. */
  const grown = (afterMs: number, dose: number, refused = false) => {
    const day = opened();
    day.heard(2 * MINUTE, day.tally(2 * MINUTE, 0, { sequence: 1 }));
    const at = 2 * MINUTE + afterMs;
    if (refused) {
      const heard = day.heard(at - 1, day.tally(at - 1, 0, { sequence: 2 }));
      day.add(at - 1, 'Edda', 'air.refused', { frame: 'tally', from: 'breaker', reason: 'tag' }, heard);
    }
    day.heard(at, day.tally(at, 1, { dose, sequence: 3 }));
    day.ledger(at, 1, { dose });
    return told(noSuddenDose, day);
  };
  const most = (ms: number) => 250_000 * (ms + ms / 25 + 10_000);

  it('50 m/s² since the last tally, 4 % and 10 s more', () => {
    expect([grown(5000, most(5000)), grown(MINUTE, most(MINUTE))]).toEqual([[], []]);
    expect(grown(5000, most(5000) + 1)).toEqual([
      `wrong: Edda is charged ${most(5000) + 1} u for session 1 of breaker within 5 s`,
    ]);
  });

  it('not since one that was refused, and from the pairing on', () => {
    expect(grown(5000, most(5000), true)).toEqual([]);
    const first = (dose: number) => {
      const day = opened();
      day.heard(2 * MINUTE, day.tally(2 * MINUTE, 1, { dose }));
      day.ledger(2 * MINUTE, 1, { dose });
      return told(noSuddenDose, day).length;
    };
    expect([first(most(MINUTE)), first(most(MINUTE) + 1)]).toEqual([0, 1]);
  });

  it('and nothing is refused that a tool may have made', () => {
    const refused = (dose: number, reason = 'implausible') => {
      const day = opened();
      day.heard(2 * MINUTE, day.tally(2 * MINUTE, 0, { sequence: 1 }));
      const heard = day.heard(2 * MINUTE + 5000, day.tally(2 * MINUTE + 5000, 1, { dose, sequence: 2 }));
      day.add(2 * MINUTE + 5000, 'Edda', 'air.refused', { frame: 'tally', from: 'breaker', reason }, heard);
      return told(noSuddenDose, day);
    };
    expect([refused(most(5000) + 1), refused(5, 'tag')]).toEqual([[], []]);
    expect(refused(most(5000))).toEqual([`wrong: Edda refuses ${most(5000)} u of session 1 of breaker within 5 s`]);
  });

  it('but nobody knows how long a wearable was without power', () => {
    const started = (refused: boolean) => {
      const day = opened();
      day.heard(2 * MINUTE, day.tally(2 * MINUTE, 0, { sequence: 1 }));
      day.ledger(2 * MINUTE, 0);
      day.cut(2 * MINUTE, 'Edda');
      day.back(2 * MINUTE + 10, 'Edda');
      day.ledger(2 * MINUTE + 10, 0);
      day.recovered(2 * MINUTE + 10, 'Edda');
      const dose = most(MINUTE) + 1;
      const heard = day.heard(3 * MINUTE, day.tally(3 * MINUTE, 1, { dose, sequence: 2 }));
      const refusal = { frame: 'tally', from: 'breaker', reason: 'implausible' };
      if (refused) day.add(3 * MINUTE, 'Edda', 'air.refused', refusal, heard);
      else day.ledger(3 * MINUTE, 1, { dose });
      return told(noSuddenDose, day);
    };
    expect(started(false)).toEqual([]);
    expect(started(true)).toEqual([expect.stringContaining('of session 1 of breaker after a start')]);
  });
});

describe('a session opens on the accept of its own wearable (PAI-2)', () => {
  it('and its wearable keeps a key on that of its counter', () => {
    expect(told(openedByItsWearable, opened())).toEqual([]);
    const day = opened();
    const foreign = day.pairing(2 * MINUTE, 'accept', 'Bram', 'breaker');
    const heard = day.heard(2 * MINUTE, foreign, { frame: 'accept', from: 'Bram' }, 'breaker');
    day.add(2 * MINUTE, 'breaker', 'inner.session', { session: 2, what: 'opened', with: 'Edda' }, heard);
    day.pair(2 * MINUTE, 3);
    expect(told(openedByItsWearable, day)).toEqual([
      'wrong: breaker opens session 2, without an accept of Edda',
      'wrong: Edda keeps a key for session 3, without an accept of breaker',
    ]);
  });

  it('not on one that somebody made up, unless the digits were the same', () => {
    const deceived = (digits: number) => {
      const day = new DayTrace();
      day.display(MINUTE, 'breaker', { screen: 'digits', value: 1234 });
      day.display(MINUTE, 'Edda', { screen: 'digits', value: digits });
      const heard = inject(day, 2 * MINUTE, 'beef', 'middle', 'breaker');
      day.add(2 * MINUTE + 1, 'breaker', 'inner.session', { session: 1, what: 'opened', with: 'Edda' }, heard);
      return told(openedByItsWearable, day).length;
    };
    expect([deceived(1234), deceived(1235)]).toEqual([0, 1]);
  });

  it('and at a start a wearable only says which keys it has', () => {
    const day = opened();
    day.cut(2 * MINUTE, 'Edda');
    day.back(3 * MINUTE, 'Edda');
    day.pair(3 * MINUTE, 1);
    day.recovered(3 * MINUTE, 'Edda');
    expect(told(openedByItsWearable, day)).toEqual([]);
  });
});

describe('an acknowledgement is taken once (TAL-4)', () => {
  /** The breaker takes number 3 at 07:03, and hears of another. */
  const again = (sequence: number, more: (day: DayTrace) => void = () => {}, refused = false) => {
    const day = opened();
    day.tally(2 * MINUTE, 1);
    day.heardAck(3 * MINUTE, 1, { bytes: '03', sequence: 3 });
    more(day);
    const heard = day.heardAck(4 * MINUTE, 1, { bytes: `0${sequence}`, sequence });
    if (refused)
      day.add(4 * MINUTE, 'breaker', 'air.refused', { frame: 'ack', from: 'Edda', reason: 'replayed' }, heard);
    return told(acksTakenOnce, day);
  };

  it('and none that is older', () => {
    expect([again(4), again(3, undefined, true), again(2, undefined, true)]).toEqual([[], [], []]);
    expect(again(3)).toEqual(['wrong: breaker takes acknowledgement 3 of session 1 of breaker after 3']);
    expect(again(2)).toHaveLength(1);
  });

  it('not after a power failure either, but one of a sealed session as often as it comes', () => {
    const restart = (day: DayTrace) => {
      day.cut(3 * MINUTE, 'breaker');
      day.back(3 * MINUTE, 'breaker');
      day.found(3 * MINUTE, 'opened');
      day.recovered(3 * MINUTE, 'breaker');
    };
    expect(again(3, restart)).toHaveLength(1);
    expect(again(3, (day) => day.session(3 * MINUTE, 'sealed'))).toEqual([]);
    expect(again(3, (day) => day.display(3 * MINUTE, 'breaker', { screen: 'asleep' }))).toEqual([]);
  });
});
