// What a counter must make of a frame (PAI-1, PAI-2, PAI-5, PAI-6, TAL-4, TAL-5), from the requirements and
// src/link/README.md, and what becomes of its sessions by it.
import { CHIP } from '../../../src/link/cipher.js';
import type { Secured } from '../../../src/link/frames.js';
import type { Acknowledgement } from '../../../src/link/messages.js';
import type { Message } from '../../../src/link/pairing-messages.js';
import type { Refusal } from '../../../src/port/refusals.js';
import type { CounterRig } from '../../rig/counter-rig.js';
import type { ToldWearable } from '../../rig/told-wearable.js';
import { isUseless } from './keys.js';
import { CODES, headerOf, isKey, isSame, type Shot, type Verdict } from './target.js';

/** A session that the counter keeps. */
export interface Kept {
  readonly session: number;
  readonly link: number;
  readonly secured: Secured;
  /** When it was opened. */
  readonly sinceMs: number;
  isOpen: boolean;
  /** Sequences of the frames as which it is kept once it is sealed, as soon as they are told; report 0 where there is none. */
  sealed: { readonly tally: number; readonly report: number } | null;
  /** Highest sequence of an acknowledgement taken, and the first sequence that the counter gave out since it started. */
  heard: number;
  first: number;
}

/** The pairing that is open: who touched the counter, and what it took from them. */
export interface Peer {
  readonly told: ToldWearable;
  publicKey: Uint8Array | null;
  nonce: Uint8Array | null;
}

export class CounterRules {
  readonly kept: Kept[] = [];
  peer: Peer | null = null;

  constructor(readonly rig: CounterRig) {}

  /** Of the panel: resting, refusing, pairing.calling, .committed, .comparing.asked, .comparing.accepted … */
  get phase(): string {
    return this.rig.states.get('panel') ?? 'resting';
  }

  get isPairing(): boolean {
    return this.phase.startsWith('pairing');
  }

  get open(): Kept | undefined {
    return this.kept.find(({ isOpen }) => isOpen);
  }

  /** The link of the open pairing, once both nonces are said. */
  get pendingLink(): number | null {
    return this.phase.startsWith('pairing.comparing') ? this.peer!.told.answer.link : null;
  }

  /** Its key, where anybody outside knows it. */
  get pending(): Secured | null {
    return this.pendingLink !== null && this.saidHonestly ? this.peer!.told.agreed : null;
  }

  get saidHonestly(): boolean {
    const { peer } = this;
    if (peer === null || peer.publicKey === null || peer.nonce === null) return false;
    return isSame(peer.publicKey, peer.told.publicKey) && isSame(peer.nonce, peer.told.nonce);
  }

  /** A pairing has come to its end: the session before is open no longer. */
  noteOpened({ answer: { session, link } }: ToldWearable, secured: Secured): void {
    if (this.open !== undefined) this.open.isOpen = false;
    const sinceMs = this.rig.site.nowMs;
    this.kept.push({ session, link, secured, sinceMs, isOpen: true, sealed: null, heard: 0, first: 1 });
  }

  weigh({ frame, due, sealedBy }: Shot): Verdict {
    const clear = (reason: Refusal | ''): Verdict => ({ reason, opens: false });
    if (typeof due === 'string' && due !== 'malformed') return clear(due);
    const { kind, link, sequence } = headerOf(frame);
    if (kind >= CODES.hello) return clear(typeof due === 'string' ? due : this.weighClear(due));
    const isAccept = kind === CODES.counterAccept || kind === CODES.wearableAccept;
    if (link === 0 || (sequence === 0) !== isAccept) return clear('malformed');
    if (kind === CODES.tally || kind === CODES.report) return clear('unexpected');
    const kept = this.kept.find((session) => session.link === link);
    if (kept === undefined && link !== this.pendingLink) return clear('foreign');
    if (!isKey(kept?.secured ?? this.pending, sealedBy)) return { reason: 'tag', opens: true };
    return { reason: typeof due === 'string' ? due : this.weighSealed(due, kept), opens: true };
  }

  private weighClear(due: Message): Refusal | '' {
    const { peer } = this;
    if (!('wearable' in due)) throw new Error(`${due.frame} is no frame of a pairing`);
    if (peer === null || !this.isPairing || due.counter !== this.rig.id || due.wearable !== peer.told.id)
      return 'foreign';
    switch (due.frame) {
      case 'hello':
        if (peer.publicKey !== null) return isSame(peer.publicKey, due.publicKey) ? '' : 'changed';
        return isUseless(due.publicKey, this.rig.site.cipher === CHIP) ? 'changed' : '';
      case 'nonce':
        if (peer.publicKey === null) return 'unexpected';
        return peer.nonce === null || isSame(peer.nonce, due.nonce) ? '' : 'changed';
      case 'refuse':
        return '';
      default:
        return 'unexpected';
    }
  }

  private weighSealed(due: Message, kept: Kept | undefined): Refusal | '' {
    if (due.frame === 'ack' && kept !== undefined) return this.weighAck(due, kept);
    if (due.frame !== 'accept' || due.by !== 'wearable' || kept !== undefined) return 'unexpected';
    return due.counter === this.rig.id && due.wearable === this.peer!.told.id ? '' : 'foreign';
  }

  /** A sealed session takes any acknowledgement, over and over: it only asks whether that covers all of its frames. */
  private weighAck({ sequence, highest, highestReport }: Acknowledgement, kept: Kept): Refusal | '' {
    if (!kept.isOpen) return '';
    return sequence <= kept.heard || Math.max(highest, highestReport) < kept.first ? 'replayed' : '';
  }
}

/** PAI-5: whether a sealed session may be let go of for this acknowledgement. */
export function isCovered({ sealed }: Kept, { highest, highestReport }: Acknowledgement): boolean {
  return sealed !== null && highest >= sealed.tally && highestReport >= sealed.report;
}
