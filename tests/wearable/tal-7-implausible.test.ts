// TAL-7: dose that rises faster than 50 m/s² over the time since the last accepted tally, + 4 % + 10 s, is refused and reported.
import { beforeEach, expect, test } from 'vitest';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

/** u of a millisecond at 50.0 m/s². */
const MOST = 250_000;

let site: Site;
let edda: WearableRig;
let saw: ToldSession;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
  saw = toldSession(edda);
});

/** A tally arrives now, however little time there was for it. */
function say(dose: number): void {
  saw.hear(saw.make({ dose }));
}

test.each([0, 1, 25, 100, 5_000, 3_600_000])('after %i ms, to the last u', (sinceMs) => {
  site.runFor(sinceMs);
  const most = MOST * (sinceMs + Math.ceil(sinceMs / 25) + 10_000);
  say(most + 1);
  expect(edda.refused).toEqual(['implausible']);
  expect(edda.dose).toBe(0);
  say(most);
  expect(edda.refused).toHaveLength(1);
  expect(edda.dose).toBe(most);
});

test('what is refused is reported with the shift, is not acknowledged, and alerts nobody', () => {
  const acks = edda.sent('ack').length;
  say(2 ** 52 - 1);
  expect(edda.incomplete).toEqual([{ shift: 1, counter: 1, why: 'implausible' }]);
  expect(edda.display).toMatchObject({ value: 0, icons: ['incomplete'] });
  expect(edda.sent('ack')).toHaveLength(acks);
  expect(edda.alerts).toEqual([]);
  expect(edda.ledger).toEqual([]);
});

test('time counts from the last tally that was accepted, not from one that was refused', () => {
  site.runFor(20_000);
  say(MOST * 60_000);
  site.runFor(20_000);
  say(MOST * 50_000);
  expect(edda.refused).toEqual(['implausible']);
  expect(edda.dose).toBe(MOST * 50_000);
});

test('a refused tally does not hide the ones that come after it', () => {
  say(2 ** 52 - 1);
  say(5);
  expect(edda.dose).toBe(5);
});

test('dose that does not rise is never implausible, a fall neither', () => {
  say(1_000);
  say(1_000);
  say(900);
  expect(edda.refused).toEqual([]);
  expect(edda.dose).toBe(1_000);
});

test('a first tally is held to the time since the pairing', () => {
  const drill = new ToldSession(edda, 2, 9);
  site.runFor(1_000);
  drill.hear(drill.make({ dose: MOST * 20_000 }));
  expect(edda.refused).toEqual(['implausible']);
  expect(edda.ledger).toEqual([]);
  drill.hear(drill.make({ dose: MOST * 11_000 }));
  expect(edda.dose).toBe(MOST * 11_000);
});

test('after a restart nobody knows how long a counter has run: its next tally is believed, the one after it is not', () => {
  edda.cutPower();
  edda.powerUp();
  say(MOST * 3_600_000);
  expect(edda.dose).toBe(MOST * 3_600_000);
  say(MOST * 3_620_000);
  expect(edda.refused).toEqual(['implausible']);
});
