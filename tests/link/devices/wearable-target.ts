// A wearable under fire: two counters have its key, perhaps with links of one name, a third pairs with it again and again.
import type { RandomStream } from '../../../sim/kernel/random.js';
import type { Cipher } from '../../../src/link/cipher.js';
import { largest } from '../../../src/link/layout.js';
import { Site } from '../../rig/site.js';
import { ToldSession } from '../../rig/told-session.js';
import { WearableRig } from '../../rig/wearable-rig.js';
import { pick } from '../draw.js';
import { drawGenuine } from '../genuine.js';
import { drawHostile } from '../hostile.js';
import { drawPauseMs, headerOf, type Shot, type Target, type Verdict, WRONG_ONE_IN } from './target.js';
import { aimAtPairing, aimAtWearable } from './wearable-aim.js';
import { FIRST_LINKS, goOnPairing, restart } from './wearable-hands.js';
import { areTold, charge, type Entry, faultOfShifts } from './wearable-ledger.js';
import { WearableRules } from './wearable-rules.js';

const WEARABLE = 11;
/** Shifts closed by hand, so that none is forgotten in one episode. */
const MAX_CLOSED = 20;

export class WearableTarget implements Target {
  readonly rig: WearableRig;
  private readonly rules: WearableRules;
  private readonly wrongOneIn: number;
  private closed = 0;
  /** Before the last frame. */
  private phase = 'closed';
  /** What was told of the ledger and of keys, and was sent, up to the last frame. */
  private told = { ledger: 0, paired: 0, sent: 0 };

  constructor(
    private readonly cipher: Cipher,
    random: RandomStream,
  ) {
    this.rig = new WearableRig(new Site(cipher), WEARABLE);
    this.rules = new WearableRules(this.rig);
    this.wrongOneIn = pick(random, WRONG_ONE_IN);
    this.pairWith(1, FIRST_LINKS[0]!);
    this.pairWith(2, FIRST_LINKS[random.chance(1, 4) ? 0 : 1]!);
    this.catchUp();
  }

  names(): readonly number[] {
    return this.rules.entries.map(({ link }) => link);
  }

  drawGenuine(random: RandomStream): Uint8Array {
    const { secured, link, highest, counter } = pick(random, this.rules.entries);
    const sequence = Math.min(highest + random.within(1, 9), largest(32));
    return drawGenuine(this.cipher, random, { secured, link, sequence, counter, wearable: WEARABLE });
  }

  drawHostile(random: RandomStream): Shot {
    const { rules, wrongOneIn } = this;
    const atPairing = rules.isOpen && rules.peer !== null && random.chance(1, 3);
    const aim = atPairing ? aimAtPairing(rules, random) : aimAtWearable(rules, wrongOneIn, random);
    const { frame, due } = drawHostile(this.cipher, random, aim);
    return { frame, due: due as Shot['due'], sealedBy: aim.secured };
  }

  stir(random: RandomStream): string | null {
    const { rig, rules, told } = this;
    rig.site.runFor(drawPauseMs(random));
    if (random.chance(1, 2)) goOnPairing(rules, random);
    if (random.chance(1, 40) && this.closed < MAX_CLOSED) {
      rig.close();
      this.closed += 1;
    }
    if (random.chance(1, 8)) rig.readout();
    const starts = random.chance(1, 40);
    if (starts) restart(rules);
    const due = starts ? rules.entries.filter(({ confirmed }) => confirmed) : [];
    const fault = areTold(due, rig.ledger.slice(told.ledger)) ? null : 'the ledger is not as it was';
    this.catchUp();
    return fault;
  }

  weigh(shot: Shot): Verdict {
    this.phase = this.rules.phase;
    return this.rules.weigh(shot);
  }

  follow(shot: Shot): string | null {
    const { rules } = this;
    const { due } = shot;
    if (typeof due === 'string') return `${due}, and yet taken`;
    if (due.frame === 'answer') rules.peer!.answer ??= due;
    if (due.frame === 'accept') return this.followAccept(shot);
    if (due.frame === 'report') rules.ownerOf(shot)!.highestReport = due.sequence;
    if (due.frame !== 'tally') return this.ledgerGrew([]);
    const entry = rules.ownerOf(shot)!;
    const grew = charge(entry, due, this.rig.site.nowMs);
    return this.ledgerGrew(grew ? [entry] : []) ?? this.answered(entry);
  }

  check(): string | null {
    const { rig, rules, told } = this;
    if (rig.paired.length !== told.paired) return 'a key is kept that nobody accepted';
    const fault = faultOfShifts(rig, rules.entries);
    this.catchUp();
    return fault;
  }

  effects(): Record<string, number> {
    const { ledger, paired, recovered } = this.rig;
    return { 'ledger entries': ledger.length, 'keys kept': paired.length, 'starts of a wearable': recovered.length };
  }

  private pairWith(counter: number, link: number): void {
    const { rig, rules } = this;
    const told = new ToldSession(rig, counter, link);
    this.noteKey({ counter, link, session: told.session, secured: told.secured });
    for (const dose of [1_000_000, 5_000_000]) {
      const { message, bytes } = told.make({ dose, windows: dose / 100_000 });
      rig.hear(bytes);
      charge(rules.entries.at(-1)!, message, rig.site.nowMs);
    }
  }

  /** The counter of an open pairing has accepted: where the wearer has too, the key is kept. */
  private followAccept(shot: Shot): string | null {
    const { rules, rig, told } = this;
    const { peer } = rules;
    const keeps = rules.ownerOf(shot) === undefined && this.phase === 'open.comparing.tapped';
    if (rig.paired.length !== told.paired + (keeps ? 1 : 0)) return 'an accept came to what it should not';
    if (keeps) {
      const { id: counter, link, session } = peer!.told;
      this.noteKey({ counter, link, session, secured: shot.sealedBy! });
    }
    return this.ledgerGrew([]);
  }

  private ledgerGrew(entries: readonly Entry[]): string | null {
    const more = this.rig.ledger.slice(this.told.ledger);
    return areTold(entries, more) ? null : `the ledger has grown by ${JSON.stringify(more)}`;
  }

  /** Only the counter that has told is answered, on its own link. */
  private answered({ link, counter }: Entry): string | null {
    const sent = this.rig.site.frames.slice(this.told.sent);
    const other = sent.find(({ to, bytes }) => to !== counter || headerOf(bytes).link !== link);
    return other === undefined ? null : `${other.message.frame} was sent to ${other.to}`;
  }

  private noteKey(names: Pick<Entry, 'counter' | 'link' | 'session' | 'secured'>): void {
    const { site, paired } = this.rig;
    const { shift } = paired.at(-1)!;
    this.rules.entries.push({ ...names, ...NOTHING_TOLD, shift, heardMs: site.nowMs });
    this.told.paired = paired.length;
  }

  private catchUp(): void {
    const { ledger, paired, site } = this.rig;
    this.told = { ledger: ledger.length, paired: paired.length, sent: site.frames.length };
  }
}

const NOTHING_TOLD = {
  dose: 0,
  triggerWindows: 0,
  unratedWindows: 0,
  highest: 0,
  highestGrown: 0,
  highestReport: 0,
  confirmed: false,
};
