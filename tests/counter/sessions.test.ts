// PAI-3 to PAI-6: what becomes of a session once it is over, and of dose outside any.
import { beforeEach, expect, test } from 'vitest';
import { freeLink } from '../../src/counter/sessions.js';
import { freshState } from '../../src/counter/state.js';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp, touch } from '../rig/pair-up.js';
import { type Air, Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

/** u of one second at 5.0 m/s². */
const SECOND_DOSE = 1000 * 2500;

let site: Site;
let saw: CounterRig;
let edda: WearableRig;
let bram: WearableRig;
beforeEach(() => {
  site = new Site();
  saw = new CounterRig(site, 1, 50);
  edda = new WearableRig(site, 11);
  bram = new WearableRig(site, 12);
});

/** An air in which nothing reaches or leaves these. */
function away(...ids: number[]): Air {
  return ({ from, to }) => (ids.includes(from) || ids.includes(to) ? [] : [5]);
}

test('PAI-3: a handover while the first wearable is away: each is charged for its own session, the first one late', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda.id);
  saw.work(20_000);
  pairUp(saw, bram);
  saw.work(40_000);
  expect(edda.dose).toBe(10 * SECOND_DOSE);
  expect(bram.dose).toBe(40 * SECOND_DOSE);
  site.air = () => [5];
  site.runFor(60_000);
  expect(edda.dose).toBe(30 * SECOND_DOSE);
  expect(bram.dose).toBe(40 * SECOND_DOSE);
  expect(saw.sessions).toContain('delivered 1');
});

test('PAI-4: dose outside any session is counted, shown, reported to whoever pairs, and charged to nobody', () => {
  saw.work(10_000);
  expect(saw.observe()).toMatchObject({ session: 0, dose: 10 * SECOND_DOSE });
  expect(saw.display.icons).toContain('unclaimed');
  pairUp(saw, edda);
  saw.work(2_000);
  expect(edda.dose).toBe(2 * SECOND_DOSE);
  expect(saw.sent('report').at(-1)).toMatchObject({ unclaimedDose: 10 * SECOND_DOSE, unclaimedWindows: 100 });
  expect(saw.sent('tally').at(-1)!.flags & TALLY_FLAGS.unclaimed).toBe(TALLY_FLAGS.unclaimed);
  expect(saw.display.icons).toContain('unclaimed');
});

test('PAI-4: unrated time outside any session is unclaimed too', () => {
  saw = new CounterRig(site, 2, 0);
  saw.work(10_000);
  pairUp(saw, edda);
  expect(saw.sent('report').at(-1)).toMatchObject({ unclaimedDose: 0, unclaimedWindows: 100 });
  expect(edda.dose).toBe(0);
});

test('PAI-5: a sealed session is resent verbatim at least every 60 s until acknowledged, then no more', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda.id);
  saw.windows(WORK_MM, REST_MM);
  pairUp(saw, bram);
  const sealedMs = site.nowMs;
  site.runFor(10 * MINUTE);
  const resent = site.frames.filter(({ to, atMs }) => to === edda.id && atMs >= sealedMs - 1000);
  const texts = new Set(resent.map(({ message }) => JSON.stringify(message)));
  expect(texts.size).toBe(2);
  expect([...texts].join()).toContain('"frame":"report"');
  for (const text of texts) {
    const timesMs = resent.filter(({ message }) => JSON.stringify(message) === text).map(({ atMs }) => atMs);
    expect(timesMs.length).toBeGreaterThanOrEqual(10);
    const gapsMs = timesMs.slice(1).map((atMs, index) => atMs - timesMs[index]!);
    expect(Math.max(...gapsMs)).toBeLessThanOrEqual(60_000);
  }

  site.air = () => [5];
  site.runFor(60_000);
  expect(saw.sessions.at(-1)).toBe('delivered 1');
  const delivered = site.frames.length;
  site.runFor(5 * MINUTE);
  expect(site.frames.slice(delivered).filter(({ to }) => to === edda.id)).toEqual([]);
});

test('PAI-5: an acknowledgement that is lost is given again for the duplicate, which changes nothing', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = ({ from }) => (from === edda.id ? [] : [5]);
  edda.close();
  site.runFor(MINUTE);
  const [dose, changes] = [edda.dose, edda.ledger.length];
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'ack' ? [] : [5]);
  pairUp(saw, bram);
  site.runFor(3 * MINUTE);
  expect(saw.sessions).not.toContain('delivered 1');
  expect(edda.dose).toBe(dose);
  expect(edda.ledger).toHaveLength(changes);
  site.air = () => [5];
  site.runFor(MINUTE);
  expect(saw.sessions).toContain('delivered 1');
  expect(edda.ledger).toHaveLength(changes);
});

test('PAI-5: a session is let go only when its report is acknowledged too', () => {
  pairUp(saw, edda);
  saw.windows(WORK_MM, REST_MM);
  site.air = ({ to, message }) => (to === edda.id && message.frame === 'report' ? [] : [5]);
  pairUp(saw, bram);
  site.runFor(5 * MINUTE);
  expect(saw.sessions).not.toContain('delivered 1');
  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(saw.sessions).toContain('delivered 1');
});

test('PAI-5: 32 sealed sessions are kept, the next pairing is refused and shown, and nothing is forgotten', () => {
  const crew = Array.from({ length: 34 }, (_, index) => new WearableRig(site, 100 + index));
  let heard = -1;
  site.air = ({ from, to }) => ([from, to].some((id) => id === heard) ? [5] : []);
  for (const wearable of crew.slice(0, 33)) {
    heard = wearable.id;
    pairUp(saw, wearable);
    heard = -1;
    saw.work(1_000);
  }
  expect(saw.sessions.filter((what) => what.startsWith('sealed'))).toHaveLength(32);
  expect(saw.display.icons).toContain('full');

  heard = crew[33]!.id;
  touch(saw, crew[33]!);
  site.runFor(100);
  expect([saw.display.screen, crew[33]!.display.screen]).toEqual(['refused-full', 'refused-full']);
  site.runFor(10_000);
  expect(saw.observe()).toMatchObject({ session: 33, dose: SECOND_DOSE });

  // The open session has a place of its own: it can end without one being forgotten.
  heard = crew[32]!.id;
  site.runFor(MINUTE);
  crew[32]!.close();
  heard = -1;
  site.runFor(6 * HOUR);
  expect(saw.observe().session).toBe(0);

  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(saw.sessions.filter((what) => what.startsWith('delivered'))).toHaveLength(33);
  expect(saw.display.icons).not.toContain('full');
  expect(crew.map(({ dose }) => dose)).toEqual([...crew.slice(1).map(() => SECOND_DOSE), 0]);
  pairUp(saw, crew[33]!);
  expect(saw.observe().session).toBe(34);
});

test('PAI-6: the session ends without a successor when the wearer closes the shift', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  edda.close();
  site.runFor(MINUTE);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'delivered 1']);
  saw.work(5_000);
  expect(saw.observe()).toMatchObject({ session: 0, dose: 5 * SECOND_DOSE });
  site.runFor(MINUTE);
  expect(edda.dose).toBe(10 * SECOND_DOSE);
});

test('PAI-6: a shift closed while the tool runs ends the session with the next tally; the rest of the run is unclaimed', () => {
  pairUp(saw, edda);
  const startMs = site.nowMs;
  saw.level(WORK_MM);
  site.runFor(10_000);
  edda.close();
  site.runFor(10_000);
  saw.level(REST_MM);
  site.runFor(MINUTE);
  const charged = edda.dose / SECOND_DOSE;
  expect(charged).toBeGreaterThanOrEqual(10);
  expect(charged).toBeLessThanOrEqual(15.2);
  expect(saw.observe().dose + edda.dose).toBe(20 * SECOND_DOSE);
  expect(saw.observe().session).toBe(0);
  expect(startMs % 100).toBe(0);
});

test('PAI-6: after 6 h without running the counter ends the session, to the millisecond, in or out of range', () => {
  pairUp(saw, edda);
  site.air = away(edda.id);
  saw.work(10_000, 500);
  const stoppedMs = site.nowMs;
  site.runTo(stoppedMs + 6 * HOUR - 1);
  expect(saw.observe().session).toBe(1);
  site.runFor(1);
  expect(saw.observe().session).toBe(0);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1']);
});

test('PAI-6: running within the 6 h starts them again, however short the burst', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.runFor(6 * HOUR - 10_000);
  saw.work(200);
  site.runFor(6 * HOUR - 10_000);
  expect(saw.sessions).toEqual(['opened 1']);
  site.runFor(10_000);
  expect(saw.sessions.slice(0, 2)).toEqual(['opened 1', 'sealed 1']);
});

test('PAI-6: the 6 h begin anew with a pairing, for the session that it opens', () => {
  pairUp(saw, edda);
  site.runFor(5 * HOUR);
  pairUp(saw, bram);
  site.runFor(5 * HOUR);
  expect(saw.observe().session).toBe(2);
  site.runFor(HOUR);
  expect(saw.observe().session).toBe(0);
});

test('PAI-3: a session that opens by a handover is told at once', () => {
  pairUp(saw, edda);
  pairUp(saw, bram);
  expect(bram.display).toMatchObject({ screen: 'points', value: 0 });
});

test('PAI-5: a session is told as sealed at once, also while others are still waiting for their wearables', () => {
  const carl = new WearableRig(site, 13);
  pairUp(saw, edda);
  site.air = away(edda.id);
  pairUp(saw, bram);
  site.runFor(30_000);
  pairUp(saw, carl);
  expect(saw.sessions.at(-1)).toBe('delivered 2');
});

test('a session in which nothing ever ran ends after 6 h too, and is delivered', () => {
  pairUp(saw, edda);
  site.runFor(6 * HOUR + MINUTE);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'delivered 1']);
});

test('the name of a link is never 0 and never one that is in use', () => {
  const state = freshState(1, 0);
  expect(freeLink(state, 0)).toBe(1);
  expect(freeLink(state, 0x1234_0000)).toBe(1);
  expect(freeLink(state, 0xabcd_ef01)).toBe(0xef01);
  state.sealed.push({ session: 1, link: 0xffff, wearable: 11, frames: [] });
  state.sealed.push({ session: 2, link: 1, wearable: 11, frames: [] });
  expect(freeLink(state, 0xffff)).toBe(2);
});
