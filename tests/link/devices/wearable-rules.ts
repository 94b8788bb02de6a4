// What a wearable must make of a frame (PAI-1, PAI-2, TAL-3, TAL-4, TAL-7), from the requirements and src/link/README.md, and
// the ledger that must come of it.
import { CHIP } from '../../../src/link/cipher.js';
import type { Secured } from '../../../src/link/frames.js';
import { commitmentOf } from '../../../src/link/pairing.js';
import type { ClearMessage, Message } from '../../../src/link/pairing-messages.js';
import type { Refusal } from '../../../src/port/refusals.js';
import type { ToldCounter } from '../../rig/told-counter.js';
import type { WearableRig } from '../../rig/wearable-rig.js';
import { isUseless } from './keys.js';
import { CODES, headerOf, isKey, isSame, type Shot, type Verdict } from './target.js';
import { type Entry, mostDose } from './wearable-ledger.js';

export type Answer = Extract<ClearMessage, { frame: 'answer' }>;

/** The pairing that is open: whom the wearable touched, and the answer that it took. */
export interface Peer {
  readonly told: ToldCounter;
  answer: Answer | null;
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
    if (kind === CODES.hello || kind === CODES.nonce) return clear('unexpected');
    if (kind >= CODES.hello) return clear(typeof due === 'string' ? due : this.weighClear(due));
    const isAccept = kind === CODES.counterAccept || kind === CODES.wearableAccept;
    if (link === 0 || (sequence === 0) !== isAccept) return clear('malformed');
    if (kind === CODES.ack) return clear('unexpected');
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
}

function sameAnswer(one: Answer, other: Answer): boolean {
  return (
    one.link === other.link &&
    one.session === other.session &&
    isSame(one.publicKey, other.publicKey) &&
    isSame(one.commitment, other.commitment)
  );
}
