// What a wearable must make of a frame (PAI-1, PAI-2, TAL-3, TAL-4, TAL-7), from the requirements and src/link/README.md, and
// the ledger that must come of it.
import { CHIP } from '../../../src/link/cipher.js';
import type { Secured } from '../../../src/link/frames.js';
import type { Tally } from '../../../src/link/messages.js';
import { commitmentOf } from '../../../src/link/pairing.js';
import type { ClearMessage, Message } from '../../../src/link/pairing-messages.js';
import type { Refusal } from '../../../src/port/refusals.js';
import type { ToldCounter } from '../../rig/told-counter.js';
import type { WearableRig } from '../../rig/wearable-rig.js';
import { isUseless } from './keys.js';
import { headerOf, isKey, isSame, type Shot, type Verdict } from './target.js';

/** A session that the wearable has the key of, and what it must have in its ledger. */
export interface Entry {
  readonly counter: number;
  readonly session: number;
  readonly link: number;
  readonly secured: Secured;
  readonly shift: number;
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
  highest: number;
  /** Sequence of the last tally by which it grew. */
  highestGrown: number;
  highestReport: number;
  /** When a tally was taken last; null where nobody knows how long ago that was. */
  heardMs: number | null;
  confirmed: boolean;
}

export type Answer = Extract<ClearMessage, { frame: 'answer' }>;

/** The pairing that is open: whom the wearable touched, and the answer that it took. */
export interface Peer {
  readonly told: ToldCounter;
  answer: Answer | null;
}

/** TAL-7: 50 m/s², which is 250 000 u a ms; 4 %, in whole ms, for two clocks; 10 s for what was on its way. */
const MOST_U_PER_MS = 250_000;
const SPARE_MS = 10_000;

const SAYS_COUNTER = { tally: 1, report: 2, accept: 4, answer: 17, reveal: 19, refuse: 20 };
const SAYS_WEARABLE = { ack: 3, accept: 5, hello: 16, nonce: 18 };

/** The most dose that a tally may say now. */
export function mostDose({ dose, heardMs }: Entry, nowMs: number): number {
  if (heardMs === null) return Infinity;
  return dose + MOST_U_PER_MS * (Math.ceil(((nowMs - heardMs) * 104) / 100) + SPARE_MS);
}

export class WearableRules {
  readonly entries: Entry[] = [];
  peer: Peer | null = null;

  constructor(readonly rig: WearableRig) {}

  /** closed, refusing, open.calling, open.committed, open.comparing.asked or open.comparing.tapped. */
  get phase(): string {
    return this.rig.states.get('pairing') ?? 'closed';
  }

  get isOpen(): boolean {
    return this.phase.startsWith('open');
  }

  /** The key of the open pairing, once there is one, where anybody outside knows it. */
  get pending(): Secured | null {
    return this.phase.startsWith('open.comparing') && this.answeredHonestly ? this.peer!.told.secured : null;
  }

  get answeredHonestly(): boolean {
    const answer = this.peer?.answer ?? null;
    return answer !== null && sameAnswer(answer, this.honestAnswer());
  }

  honestAnswer(): Answer {
    const { link, session, publicKey, nonce, ids } = this.peer!.told;
    const commitment = this.commitmentTo(publicKey, nonce);
    return { frame: 'answer', ...ids, link, session, publicKey, commitment };
  }

  commitmentTo(publicKey: Uint8Array, nonce: Uint8Array): Uint8Array {
    return commitmentOf(this.rig.site.cipher, publicKey, this.rig.sent('hello').at(-1)!.publicKey, nonce);
  }

  /** Whose frame it is: of those that know the key, those whose link is named so. */
  ownerOf({ frame, sealedBy }: Shot): Entry | undefined {
    const { link } = headerOf(frame);
    return this.entries.find((entry) => entry.link === link && isKey(entry.secured, sealedBy));
  }

  weigh(shot: Shot): Verdict {
    const { frame, due } = shot;
    const clear = (reason: Refusal | ''): Verdict => ({ reason, opens: false });
    if (typeof due === 'string' && due !== 'malformed') return clear(due);
    const { kind, link, sequence } = headerOf(frame);
    if (kind === SAYS_WEARABLE.hello || kind === SAYS_WEARABLE.nonce) return clear('unexpected');
    if (kind >= 16) return clear(typeof due === 'string' ? due : this.weighClear(due));
    const isAccept = kind === SAYS_COUNTER.accept || kind === SAYS_WEARABLE.accept;
    if (link === 0 || (sequence === 0) !== isAccept) return clear('malformed');
    if (kind === SAYS_WEARABLE.ack) return clear('unexpected');
    const known = this.entries.some((entry) => entry.link === link) || (isAccept && this.isPendingName(link));
    if (!known) return clear('foreign');
    return { reason: isAccept ? this.weighAccept(shot) : this.weighTold(shot), opens: true };
  }

  private isPendingName(link: number): boolean {
    return this.phase.startsWith('open.comparing') && this.peer?.answer?.link === link;
  }

  private weighClear(due: Message): Refusal | '' {
    const { peer } = this;
    if (!('wearable' in due)) throw new Error(`${due.frame} is no frame of a pairing`);
    if (peer === null || !this.isOpen || due.counter !== peer.told.id || due.wearable !== this.rig.id) return 'foreign';
    switch (due.frame) {
      case 'answer':
        if (peer.answer !== null) return sameAnswer(peer.answer, due) ? '' : 'changed';
        return isUseless(due.publicKey, this.rig.site.cipher === CHIP) ? 'changed' : '';
      case 'reveal':
        if (peer.answer === null) return 'unexpected';
        return isSame(peer.answer.commitment, this.commitmentTo(peer.answer.publicKey, due.nonce)) ? '' : 'commitment';
      default:
        return '';
    }
  }

  private weighAccept({ frame, due, sealedBy }: Shot): Refusal | '' {
    const { link } = headerOf(frame);
    const ofPairing = this.isPendingName(link) && isKey(this.pending, sealedBy);
    const counter = ofPairing ? this.peer!.told.id : this.ownerOf({ frame, due, sealedBy })?.counter;
    if (counter === undefined) return 'tag';
    if (typeof due === 'string') return due;
    if (due.frame !== 'accept' || due.by !== 'counter') return 'unexpected';
    return due.wearable === this.rig.id && due.counter === counter ? '' : 'foreign';
  }

  private weighTold(shot: Shot): Refusal | '' {
    const { due } = shot;
    const entry = this.ownerOf(shot);
    if (entry === undefined) return 'tag';
    if (typeof due === 'string') return due;
    if (due.frame === 'report') return due.sequence < entry.highestReport ? 'replayed' : '';
    if (due.frame !== 'tally') throw new Error(`${due.frame} is neither tally nor report`);
    if (due.sequence < entry.highest) return 'replayed';
    if (due.sequence === entry.highest) return '';
    return due.dose > mostDose(entry, this.rig.site.nowMs) ? 'implausible' : '';
  }

  /** TAL-3: a tally that was taken. True where the entry grows by it. */
  charge(entry: Entry, tally: Tally): boolean {
    if (tally.sequence === entry.highest) return false;
    const before = { ...entry };
    entry.highest = tally.sequence;
    entry.heardMs = this.rig.site.nowMs;
    entry.confirmed = true;
    for (const field of ['dose', 'triggerWindows', 'unratedWindows'] as const) {
      if (tally[field] > entry[field]) entry[field] = tally[field];
    }
    const grew = SUMS.some((field) => entry[field] !== before[field]);
    if (grew) entry.highestGrown = tally.sequence;
    return grew;
  }
}

export const SUMS = ['dose', 'triggerWindows', 'unratedWindows'] as const;

function sameAnswer(one: Answer, other: Answer): boolean {
  return (
    one.link === other.link &&
    one.session === other.session &&
    isSame(one.publicKey, other.publicKey) &&
    isSame(one.commitment, other.commitment)
  );
}
