import { describe, expect, it } from 'vitest';
import { expectationOf, messagesOf } from '../reading.js';

const END = 33_000_000;
const CUT = 1_200_000;

function claimOf(text: string) {
  const expectation = expectationOf(`{at: end, ${text}}`);
  return 'claim' in expectation ? expectation.claim : null;
}

describe('the forms of an expectation', () => {
  const points = { of: 'points', worker: 'Edda' };
  const ten = { is: 'exactly', value: { digits: 10, places: 0 } };
  const returned = { of: 'event', kind: 'hand.return', by: 'Edda' };

  it.each([
    ['{at: 07:40, points: Edda, is: 10}', { form: 'at', atMs: 3_000_000, claim: { quantity: points, compare: ten } }],
    ['{at: 16:00, points: Edda, is: 10}', { form: 'at', atMs: END, claim: { quantity: points, compare: ten } }],
    ['{at: end, points: Edda, exactly: 10}', { form: 'at', atMs: END, claim: { quantity: points, compare: ten } }],
    ['{at: morning cut, points: Edda, is: 10}', { form: 'at', atMs: CUT, claim: { quantity: points, compare: ten } }],
    [
      '{always: points, of: Edda, is: 10}',
      { form: 'always', fromMs: 0, untilMs: END, claim: { quantity: points, compare: ten } },
    ],
    [
      '{always: points, of: Edda, is: 10, from: morning cut, until: 12:00}',
      { form: 'always', fromMs: CUT, untilMs: 18_600_000, claim: { quantity: points, compare: ten } },
    ],
    [
      '{never: alert, of: action, on: Bram, until: 12:00}',
      {
        form: 'never',
        fromMs: 0,
        untilMs: 18_600_000,
        claim: { happening: { of: 'alert', level: 'action', worker: 'Bram' } },
      },
    ],
    [
      '{never: points, of: Edda, above: 10}',
      { form: 'never', fromMs: 0, untilMs: END, claim: { quantity: points, compare: { ...ten, is: 'above' } } },
    ],
    [
      '{within: 2m, after: {return: Edda}, points: Edda, is: 10}',
      {
        form: 'within',
        withinMs: 120_000,
        after: { happening: returned },
        claim: { quantity: points, compare: ten },
      },
    ],
    [
      '{within: 6s, after: 07:10, alert: notice, on: Edda}',
      {
        form: 'within',
        withinMs: 6000,
        after: { atMs: CUT },
        claim: { happening: { of: 'alert', level: 'notice', worker: 'Edda' } },
      },
    ],
    [
      '{within: 6s, after: morning cut, return: Edda}',
      { form: 'within', withinMs: 6000, after: { atMs: CUT }, claim: { happening: returned } },
    ],
    [
      '{from: 07:10, until: 12:00, points: Edda, rises by: 10}',
      { form: 'rises by', fromMs: CUT, untilMs: 18_600_000, quantity: points, compare: ten },
    ],
    [
      '{points: Edda, rises by: [9.5, 10]}',
      {
        form: 'rises by',
        fromMs: 0,
        untilMs: END,
        quantity: points,
        compare: { is: 'between', low: { digits: 95, places: 1 }, high: { digits: 10, places: 0 } },
      },
    ],
    [
      '{points: Edda, rises by: {at least: 10}}',
      { form: 'rises by', fromMs: 0, untilMs: END, quantity: points, compare: { ...ten, is: 'at least' } },
    ],
  ])('%s', (text, expectation) => {
    const read = expectationOf(text);
    expect(read).toEqual({ ...expectation, text, place: { file: 'lock.yaml', line: 8, column: 10 } });
  });
});

describe('what an expectation is about', () => {
  const one = { is: 'exactly', value: { digits: 1, places: 0 } };

  it.each([
    ['dose: Edda, is: 1', { of: 'ledger dose', worker: 'Edda' }],
    ['dose: breaker, is: 1', { of: 'counter dose', tool: 'breaker', session: null }],
    ['dose: breaker, session: 3, is: 1', { of: 'counter dose', tool: 'breaker', session: 3 }],
    ['trigger time: breaker, is: 1ms', { of: 'trigger time', tool: 'breaker', session: null }],
    ['trigger time: breaker, session: 1, is: 1ms', { of: 'trigger time', tool: 'breaker', session: 1 }],
    ['unrated time: breaker, is: 1ms', { of: 'unrated time', tool: 'breaker', session: null }],
    ['unclaimed dose: breaker, is: 1', { of: 'unclaimed dose', tool: 'breaker' }],
    ['short bursts: breaker, is: 1', { of: 'short bursts', tool: 'breaker' }],
    ['power losses: breaker, is: 1', { of: 'power losses', tool: 'breaker' }],
    ['torn records: Edda, is: 1', { of: 'torn records', device: 'Edda' }],
    ['retired pages: breaker, is: 1', { of: 'retired pages', device: 'breaker' }],
    ['refused frames: Edda, is: 1', { of: 'refused frames', device: 'Edda', reason: null }],
    ['refused frames: breaker, reason: tag, is: 1', { of: 'refused frames', device: 'breaker', reason: 'tag' }],
    ['display: Edda, is: 1', { of: 'display value', device: 'Edda' }],
  ])('the quantity %s', (text, quantity) => {
    expect(claimOf(text)).toEqual({ quantity, compare: one });
  });

  it.each([
    ['display: breaker, screen: setting', { of: 'display screen', device: 'breaker', is: 'setting' }],
    ['display: Edda, icon: stale', { of: 'display icon', device: 'Edda', has: 'stale' }],
    [
      'state: breaker, region: trigger, is: running',
      { of: 'state', device: 'breaker', region: 'trigger', is: 'running' },
    ],
  ])('the condition %s', (text, condition) => {
    expect(claimOf(text)).toEqual({ condition });
  });

  it.each([
    ['alert: any, on: Edda', { of: 'alert', level: null, worker: 'Edda' }],
    ['message: tally', { of: 'message', frame: 'tally', from: null, to: null }],
    ['message: report, by: breaker, to: Edda', { of: 'message', frame: 'report', from: 'breaker', to: 'Edda' }],
    ['event: hand.stop, by: Edda', { of: 'event', kind: 'hand.stop', by: 'Edda' }],
    ['event: air.tally', { of: 'event', kind: 'air.tally', by: null }],
    ['leave: breaker', { of: 'event', kind: 'hand.leave', by: 'breaker' }],
    ['start: Edda', { of: 'event', kind: 'hand.start', by: 'Edda' }],
    ['press: breaker', { of: 'event', kind: 'hand.press', by: 'breaker' }],
    ['tap: Edda', { of: 'event', kind: 'hand.tap', by: 'Edda' }],
  ])('the happening %s', (text, happening) => {
    expect(expectationOf(`{within: 1m, after: 07:00, ${text}}`)).toMatchObject({ claim: { happening } });
    const [word, ...fields] = text.split(/: |, /);
    const rest = fields.slice(1).map((part, index) => (index % 2 === 0 ? `, ${part}` : `: ${part}`));
    expect(expectationOf(`{never: ${word}, of: ${fields[0]}${rest.join('')}}`)).toMatchObject({ claim: { happening } });
  });
});

describe('numbers of an expectation', () => {
  it('are exact', () => {
    expect(claimOf('points: Edda, between: [19.10, 100]')).toMatchObject({
      compare: { low: { digits: 1910, places: 2 }, high: { digits: 100, places: 0 } },
    });
    expect(claimOf('trigger time: breaker, at most: 1h0m4s')).toMatchObject({
      compare: { is: 'at most', value: { digits: 3_604_000, places: 0 } },
    });
  });

  it.each([
    ['points: Edda, is: 1e1', '1e1 is no amount'],
    ['points: Edda, is: "10"', '10 is no amount'],
    ['points: Edda, is: -1', '-1 is no amount'],
    ['points: Edda, is: 5m', '5m is no amount'],
    ['points: Edda, is: [1, 2]', 'this is no amount'],
    ['points: Edda, is: 0.0000001', '0.0000001 is no amount'],
    ['dose: Edda, is: 1.5', '1.5 is no amount'],
    ['trigger time: breaker, is: 240', '240 is no amount'],
    ['points: Edda, between: 5', 'this is no range'],
    ['points: Edda, between: [5]', 'this is no range'],
    ['points: Edda, between: [5, 4.9]', 'nothing lies between these'],
  ])('%s is refused', (text, message) => {
    expect(messagesOf({ expect: `[{at: end, ${text}}]` })).toEqual([message]);
  });
});

describe('an expectation that is refused', () => {
  it.each([
    ['{att: 07:40, points: Edda, is: 1}', ['unknown form "att" → at']],
    ['{points: Edda, is: 1}', ['this expectation has no form']],
    ['{at: 07:40, never: points, of: Edda, is: 1}', ['a second form, "never", beside "at"']],
    ['{at: 07:40, pionts: Edda, is: 1}', ['unknown subject "pionts" → points']],
    ['{at: 07:40, is: 1}', ['this expectation has no subject']],
    ['{at: 07:40, points: Edda, dose: Edda, is: 1}', ['a second subject, "dose", beside "points"']],
    ['{never: allert, of: action, on: Bram}', ['unknown subject "allert" → alert']],
    ['{never: alert, on: Bram}', ['a "never" expectation of "alert" needs "of"']],
    ['{at: 07:40, points: Eda, is: 1}', ['unknown worker "Eda" → Edda']],
    ['{at: 07:40, points: breaker, is: 1}', ['"breaker" is a tool, and a worker is needed here']],
    ['{at: 07:40, refused frames: Edda, reason: tagg, is: 1}', ['unknown refusal "tagg" → tag']],
    ['{at: 07:40, points: Edda}', ['this does not say what the quantity is compared with']],
    ['{at: 07:40, points: Edda, is: 1, below: 2}', ['a second comparison, "below"']],
    ['{at: 07:40, points: Edda, beneath: 2}', ['an "at" expectation of "points" has no "beneath"']],
    ['{at: 17:40, points: Edda, is: 1}', ['this lies outside the day']],
    ['{at: lunch, points: Edda, is: 1}', ['unknown label "lunch"']],
    ['{at: 07:40, alert: action, on: Edda}', ['what happens in a moment does not hold']],
    ['{always: alert, of: action, on: Edda}', ['what happens in a moment does not hold']],
    ['{always: points, of: Edda, is: 1, from: 12:00, until: 07:00}', ['this ends before it begins']],
    ['{always: points, of: Edda, is: 1, from: end}', ['this ends before it begins']],
    ['{never: alert, of: acton, on: Edda}', ['unknown level "acton" → action']],
    ['{never: message, of: taly}', ['unknown frame "taly" → tally']],
    ['{never: message, of: ack, by: breaker}', ['a counter never sends this: ack comes from a wearable']],
    ['{never: message, of: tally, by: Edda}', ['a wearable never sends this: tally comes from a counter']],
    ['{never: message, of: tally, to: breaker}', ['a counter never gets this: tally comes from a counter']],
    [
      '{within: 1m, after: {message: ack, by: breaker}, points: Edda, is: 1}',
      ['a counter never sends this: ack comes from a wearable'],
    ],
    ['{never: message, of: ack, by: braeker}', ['unknown tool or worker "braeker" → breaker']],
    ['{never: event, of: hand.strat}', ['unknown event "hand.strat" → hand.start']],
    ['{within: 2m, after: {retrun: Edda}, points: Edda, is: 1}', ['unknown subject "retrun" → return']],
    ['{within: 2m, after: {return: Edda, by: Bram}, points: Edda, is: 1}', ['an "after" of "return" has no "by"']],
    ['{within: 2m, after: {points: Edda}, points: Edda, is: 1}', ['this does not happen, it holds']],
    ['{within: 2m, after: 15:59, points: Edda, is: 1}', ['the day ends before the time is up']],
    ['{within: 2m, points: Edda, is: 1}', ['a "within" expectation of "points" needs "after"']],
    ['{within: 0s, after: 07:00, points: Edda, is: 1}', ['0s is out of range']],
    ['{rises by: 1, alert: action, on: Edda}', ['only a quantity rises']],
    ['{rises by: {at lest: 1}, points: Edda}', ['unknown comparison "at lest" → at least']],
    ['{rises by: {at least: 1, below: 2}, points: Edda}', ['a second comparison, "below", beside "at least"']],
    ['{rises by: 1, points: Edda, is: 2}', ['a "rises by" expectation of "points" has no "is"']],
    ['{at: end, dose: Edda, session: 1, is: 1}', ['a worker has no sessions']],
    ['{at: end, display: breaker, screen: points}', ['unknown screen "points"']],
    ['{at: end, display: Edda, screen: pionts}', ['unknown screen "pionts" → points']],
    ['{at: end, display: breaker, icon: runing}', ['unknown icon "runing" → running']],
    ['{at: end, display: breaker, icon: running, screen: ready}', ['"screen" and "icon" exclude each other']],
    ['{at: end, display: breaker, icon: running, is: 3}', ['"is" compares a number']],
    ['{at: end, state: breaker, region: triger, is: running}', ['unknown region "triger" → trigger']],
    ['{at: end, state: breaker, region: trigger, is: runing}', ['unknown state "runing" → running']],
    ['{at: end, state: breaker, region: trigger}', ['an "at" expectation of "state" needs "is"']],
  ])('%s', (text, messages) => {
    expect(messagesOf({ expect: `[${text}]` }).toSorted()).toEqual([...messages].sort());
  });
});
