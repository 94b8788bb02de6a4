// A counter under fire: it keeps a sealed session of one wearable, has one open with another, and is touched again and again.
import type { RandomStream } from '../../../sim/kernel/random.js';
import type { Cipher } from '../../../src/link/cipher.js';
import type { Secured } from '../../../src/link/frames.js';
import type { Acknowledgement } from '../../../src/link/messages.js';
import { CounterRig } from '../../rig/counter-rig.js';
import { Site } from '../../rig/site.js';
import { ToldWearable } from '../../rig/told-wearable.js';
import { pick } from '../draw.js';
import { drawGenuine } from '../genuine.js';
import { drawHostile } from '../hostile.js';
import { aimAtCounter } from './counter-aim.js';
import { type Books, booksOf, sealedAs, textOf } from './counter-books.js';
import { goOnPairing, goOnWorking, restart } from './counter-hands.js';
import { CounterRules, isCovered, type Kept } from './counter-rules.js';
import { drawPauseMs, headerOf, SETTLED_MS, type Shot, type Target, type Verdict, WRONG_ONE_IN } from './target.js';

const COUNTER = 1;
const NOBODY = { secured: { key: new Uint8Array(16).fill(0x11), session: 1 }, link: 1, heard: 0 };

export class CounterTarget implements Target {
  readonly rig: CounterRig;
  private readonly rules: CounterRules;
  private readonly wrongOneIn: number;
  /** Before the last frame. */
  private phase = 'resting';
  /** What it must say of itself, and must have said of its sessions since it was looked at last. */
  private books: Books;
  private lines: string[] = [];
  private linesSeen = 0;

  constructor(
    private readonly cipher: Cipher,
    random: RandomStream,
  ) {
    const rig = new CounterRig(new Site(cipher), COUNTER, 50);
    const rules = new CounterRules(rig);
    this.rig = rig;
    this.rules = rules;
    this.wrongOneIn = pick(random, WRONG_ONE_IN);
    if (random.chance(1, 2)) rig.work(random.within(2, 40) * 100);
    for (const id of [12, 11]) {
      const told = new ToldWearable(rig, id);
      told.pair();
      rules.noteOpened(told, told.secured!);
      rig.work(random.within(3, 100) * 100);
    }
    rig.site.runFor(SETTLED_MS);
    this.books = this.lookAnew();
  }

  names(): readonly number[] {
    return [NOBODY.link, ...this.rules.kept.map(({ link }) => link)];
  }

  drawGenuine(random: RandomStream): Uint8Array {
    const { kept, peer } = this.rules;
    const { secured, link, heard } = kept.length > 0 ? pick(random, kept) : NOBODY;
    const sequence = heard + random.within(1, 9);
    const place = { secured, link, sequence, counter: COUNTER, wearable: peer?.told.id ?? 11 };
    return drawGenuine(this.cipher, random, place);
  }

  drawHostile(random: RandomStream): Shot {
    const aim = aimAtCounter(this.rules, this.wrongOneIn, random);
    const { frame, due } = drawHostile(this.cipher, random, aim);
    return { frame, due: due as Shot['due'], sealedBy: aim.secured };
  }

  stir(random: RandomStream): string | null {
    const { rig, rules } = this;
    const { open } = rules;
    rig.site.runFor(drawPauseMs(random));
    // PAI-6: it may have been idle for 6 h.
    const idle = `sealed ${open?.session}`;
    if (rig.sessions.slice(this.linesSeen).includes(idle)) open!.isOpen = false;
    if (random.chance(1, 2)) goOnPairing(rules, random);
    if (random.chance(1, 12)) goOnWorking(rig, random);
    if (random.chance(1, 60)) rig.hold();
    const fault = random.chance(1, 30) ? restart(rules) : null;
    rig.site.runFor(SETTLED_MS);
    const lines = rig.sessions.slice(this.linesSeen);
    const paired = open === rules.open ? '' : `opened ${rules.open?.session}`;
    const wrong = lines.filter((line) => line !== idle && line !== paired && !line.startsWith('found'));
    this.books = this.lookAnew();
    return fault ?? (wrong.length === 0 ? null : `${wrong}, for no frame`);
  }

  weigh(shot: Shot): Verdict {
    this.phase = this.rules.phase;
    return this.rules.weigh(shot);
  }

  follow({ frame, due, sealedBy }: Shot): string | null {
    const { rules } = this;
    if (typeof due === 'string') return `${due}, and yet taken`;
    const { link } = headerOf(frame);
    if (due.frame === 'hello') rules.peer!.publicKey ??= due.publicKey;
    if (due.frame === 'nonce') rules.peer!.nonce ??= due.nonce;
    if (due.frame === 'accept' && this.phase === 'pairing.comparing.accepted') this.opens(sealedBy!);
    if (due.frame === 'ack') this.hears(due, rules.kept.find((session) => session.link === link)!);
    return null;
  }

  /** PAI-5, PAI-6, TAL-4: sums stay where they are; no session ends, or is let go of, but for what calls for it. */
  check(): string | null {
    const { rig, lines, books } = this;
    const told = rig.sessions.slice(this.linesSeen);
    if (told.join() !== lines.join()) return `it told "${told}" of its sessions, not "${lines}"`;
    const [now, due] = [textOf(booksOf(rig)), textOf(books)];
    if (now !== due) return `it stands at ${now}, not at ${due}`;
    if (lines.length === 0) return null;
    rig.site.runFor(SETTLED_MS);
    this.books = this.lookAnew();
    return null;
  }

  effects(): Record<string, number> {
    const { sessions, recovered } = this.rig;
    const often = (what: string) => sessions.filter((told) => told.startsWith(what)).length;
    return {
      'sessions opened': often('opened'),
      'sessions sealed': often('sealed'),
      'sessions delivered': often('delivered'),
      'starts of a counter': recovered.length,
    };
  }

  private hears(ack: Acknowledgement, kept: Kept): void {
    const { books, rules, lines } = this;
    if (isCovered(kept, ack)) {
      rules.kept.splice(rules.kept.indexOf(kept), 1);
      books.sums.delete(kept.session);
      lines.push(`delivered ${kept.session}`);
    }
    if (!kept.isOpen) return;
    kept.heard = ack.sequence;
    if (!ack.closed) return;
    kept.isOpen = false;
    books.session = 0;
    lines.push(`sealed ${kept.session}`);
  }

  private opens(secured: Secured): void {
    const { books, rules, lines } = this;
    const { told } = rules.peer!;
    const { session } = told.answer;
    if (rules.open !== undefined) lines.push(`sealed ${rules.open.session}`);
    rules.noteOpened(told, secured);
    books.session = session;
    books.sums.set(session, [0, 0, 0]);
    lines.push(`opened ${session}`);
  }

  /** The world has moved: what is counted and told by now is what no frame may change. */
  private lookAnew(): Books {
    const { rig, rules } = this;
    for (const kept of rules.kept) if (!kept.isOpen) kept.sealed ??= sealedAs(rig, kept);
    this.linesSeen = rig.sessions.length;
    this.lines = [];
    return booksOf(rig);
  }
}
