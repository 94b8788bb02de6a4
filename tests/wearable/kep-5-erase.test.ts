// KEP-5 at the wearable: while a page is erased nothing can be kept, so nothing is acknowledged that would be forgotten with the
// power; what was heard meanwhile is kept, and answered, when the erase is over.
import { expect, test } from 'vitest';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { type ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';
import { wornFlash } from '../rig/worn-flash.js';

interface Erasing {
  readonly site: Site;
  readonly edda: WearableRig;
  readonly saw: ToldSession;
}

/** Flashes on which an erase begins with one of the next writes: on some of them with the tally that is told below. */
const worn = Array.from({ length: 12 }, (_, made) => wornFlash(4 * made + 156));

/** Wearables that have just begun an erase, with the tally of another counter. */
function whileErasing(): Erasing[] {
  const found: Erasing[] = [];
  for (const flash of worn) {
    const site = new Site();
    const edda = new WearableRig(site, 11, undefined, structuredClone(flash));
    const saw = toldSession(edda, 1);
    const drill = toldSession(edda, 2);
    site.runFor(1_000);
    drill.tell({ dose: 1 });
    if (edda.flash.busy()) found.push({ site, edda, saw });
  }
  expect(found.length).toBeGreaterThan(0);
  return found;
}

test('a tally that comes during an erase is shown at once, and acknowledged when the journal holds it', () => {
  for (const { site, edda, saw } of whileErasing()) {
    const acks = edda.sent('ack').length;
    site.runFor(50);
    const { message } = saw.tell({ dose: 4 });
    expect(edda.dose).toBe(5);
    expect(edda.states.get('journal')).toBe('erasing');
    site.runFor(49);
    expect(edda.sent('ack')).toHaveLength(acks);
    site.runFor(1);
    expect(edda.sent('ack').slice(acks)).toMatchObject([{ link: saw.link, highest: message.sequence }]);
    expect(edda.states.get('journal')).toBe('ready');
    edda.cutPower();
    edda.powerUp();
    expect(edda.dose).toBe(5);
  }
});

test('what was not acknowledged is forgotten with the power, and taken in when it is told again', () => {
  for (const { edda, saw } of whileErasing()) {
    const acks = edda.sent('ack').length;
    const tally = saw.tell({ dose: 4 });
    edda.cutPower();
    edda.powerUp();
    expect(edda.dose).toBe(1);
    expect(edda.sent('ack')).toHaveLength(acks);
    saw.hear(tally);
    expect(edda.dose).toBe(5);
  }
});

test('PAI-1: the last frame of a pairing is sent only once the key is kept', () => {
  for (const { site, edda } of whileErasing()) {
    const carver = new ToldCounter(edda, 3, 9);
    carver.touch();
    carver.answer();
    carver.reveal();
    edda.tap();
    const accepts = edda.sent('accept').length;
    carver.accept();
    expect(edda.sent('accept')).toHaveLength(accepts);
    // The counter says its accept again every second.
    site.runFor(1_000);
    carver.accept();
    expect(edda.sent('accept')).toHaveLength(accepts + 1);
    edda.cutPower();
    edda.powerUp();
    carver.accept();
    expect(edda.sent('accept')).toHaveLength(accepts + 2);
  }
});
