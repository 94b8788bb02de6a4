// What happens to a counter between frames: it is touched, pushed and worked with, and its power fails.
import type { RandomStream } from '../../../sim/kernel/random.js';
import { type CounterRig, REST_MM, WORK_MM } from '../../rig/counter-rig.js';
import { ToldWearable } from '../../rig/told-wearable.js';
import { booksOf, textOf } from './counter-books.js';
import type { CounterRules } from './counter-rules.js';
import { headerOf, SETTLED_MS } from './target.js';

/** A stop of the tool is confirmed, told and kept by then. */
const AT_REST_MS = 3_000;

/** A wearable that touches, and then says what it says next; the person accepts where the digits are the same. */
export function goOnPairing(rules: CounterRules, random: RandomStream): void {
  const { phase, peer, rig } = rules;
  if (phase === 'resting') touch(rules, new ToldWearable(rig, random.within(11, 14)));
  else if (peer === null) return;
  else if (phase === 'pairing.calling') {
    peer.publicKey = peer.told.publicKey;
    peer.told.hello();
  } else if (phase === 'pairing.committed') {
    peer.nonce = peer.told.nonce;
    peer.told.sayNonce();
  } else if (phase === 'pairing.comparing.asked' && rules.saidHonestly) rig.push();
}

/** Where no session is open the pairing is made at once, so that there is one to aim at. */
function touch(rules: CounterRules, told: ToldWearable): void {
  if (rules.open === undefined && rules.rig.states.get('trigger') === 'stopped') {
    told.pair();
    rules.noteOpened(told, told.secured!);
    return;
  }
  told.touch();
  if (rules.isPairing) rules.peer = { told, publicKey: null, nonce: null };
}

export function goOnWorking(rig: CounterRig, random: RandomStream): void {
  if (random.chance(1, 3)) rig.level(random.chance(1, 2) ? WORK_MM : REST_MM);
  else rig.work(random.within(1, 200) * 100);
}

/** A counter at rest loses nothing with its power (KEP-1); acknowledgements of before it are none of now. */
export function restart(rules: CounterRules): string | null {
  const { rig, open } = rules;
  const { site } = rig;
  rig.level(REST_MM);
  site.runFor(AT_REST_MS);
  const before = textOf(booksOf(rig));
  rig.cutPower();
  site.runFor(SETTLED_MS);
  const startMs = site.nowMs;
  rig.powerUp();
  site.runFor(SETTLED_MS);
  rules.peer = null;
  if (open?.isOpen) {
    const since = site.frames.map(({ atMs, bytes }) => ({ atMs, ...headerOf(bytes) }));
    const own = since.filter(({ atMs, link }) => atMs >= startMs && link === open.link);
    open.first = Math.min(...own.map(({ sequence }) => sequence));
    open.heard = 0;
  }
  const after = textOf(booksOf(rig));
  return before === after ? null : `it found ${after} after its power was lost, not ${before}`;
}
