// Frames sealed rightly (or, in a pairing, summed rightly) whose contents may be anything, and what a reader that follows
// README.md says to each. The rules stand here a second time, on purpose.
import type { RandomStream } from '../../sim/kernel/random.js';
import type { Cipher } from '../../src/link/cipher.js';
import { crc32 } from '../../src/link/crc32.js';
import type { FrameRefusal, Secured } from '../../src/link/frames.js';
import * as layouts from '../../src/link/layout.js';
import { drawBytes, drawNumber, pick } from './draw.js';
import { SECURED } from './genuine.js';
import { packed, sealedWith, type Values } from './packer.js';

export interface Hostile {
  readonly frame: Uint8Array;
  /** What receiving it comes to. */
  readonly due: object | FrameRefusal;
}

/** Whose frames they seem to be, and how what they say comes about. */
export interface Aim {
  readonly secured: Secured;
  /** Codes of the kinds of sealed frames: any of these. */
  readonly kinds: readonly number[];
  link(random: RandomStream): number;
  sequence(random: RandomStream, kind: number): number;
  field(random: RandomStream, field: string, bits: number): number;
  bytes(random: RandomStream, field: string, length: number): Uint8Array;
}

/** Any link, any sequence, any contents, under the key of the genuine frames. */
export const ANYWHERE: Aim = {
  secured: SECURED,
  kinds: [1, 2, 3, 4, 5],
  link: (random) => (random.chance(1, 20) ? 0 : random.within(1, 0xffff)),
  sequence: (random, kind) => (random.chance(kind >= 4 ? 19 : 1, 20) ? 0 : random.within(1, 0xffff_ffff)),
  field: drawField,
  bytes: (random, _, length) => drawBytes(random, length),
};

type Fields = Record<string, number>;

interface SealedSort {
  readonly kind: number;
  readonly direction: number;
  readonly layout: layouts.Layout;
  readonly says: (link: number, sequence: number, fields: Fields) => object | 'malformed';
}

const MALFORMED = 'malformed';

const SEALED: readonly SealedSort[] = [
  {
    kind: 1,
    direction: 0,
    layout: layouts.TALLY_BITS,
    says: (link, sequence, fields) => {
      const { magnitudeTenths: tenths = 0, triggerWindows = 0, unratedWindows = 0, flags = 0 } = fields;
      if (sequence === 0 || unratedWindows > triggerWindows || flags > 255) return MALFORMED;
      if (tenths !== 0 && (tenths < 5 || tenths > 500)) return MALFORMED;
      return { frame: 'tally', link, sequence, ...fields };
    },
  },
  {
    kind: 2,
    direction: 0,
    layout: layouts.REPORT_BITS,
    says: (link, sequence, { reserved, ...fields }) =>
      sequence === 0 || reserved !== 0 ? MALFORMED : { frame: 'report', link, sequence, ...fields },
  },
  {
    kind: 3,
    direction: 1,
    layout: layouts.ACKNOWLEDGEMENT_BITS,
    says: (link, sequence, { reserved, closed, ...fields }) =>
      sequence === 0 || reserved !== 0 || fields.level! > 4
        ? MALFORMED
        : { frame: 'ack', link, sequence, ...fields, closed: closed === 1 },
  },
  ...(['counter', 'wearable'] as const).map((by, direction) => ({
    kind: 4 + direction,
    direction,
    layout: layouts.ACCEPT_BITS,
    says: (link: number, sequence: number, { counter, wearable }: Fields) =>
      sequence !== 0 || counter === 0 || wearable === 0 ? MALFORMED : { frame: 'accept', link, counter, wearable, by },
  })),
];

interface ClearSort {
  readonly kind: number;
  readonly frame: string;
  readonly layout: layouts.Layout;
}

const CLEAR: readonly ClearSort[] = [
  { kind: 16, frame: 'hello', layout: layouts.HELLO_BITS },
  { kind: 17, frame: 'answer', layout: layouts.ANSWER_BITS },
  { kind: 18, frame: 'nonce', layout: layouts.PAIRING_NONCE_BITS },
  { kind: 19, frame: 'reveal', layout: layouts.PAIRING_NONCE_BITS },
  { kind: 20, frame: 'refuse', layout: layouts.REFUSE_BITS },
];

const REASONS = ['busy', 'running', 'full'];

const KNOWN_KINDS: readonly number[] = Object.values(layouts.KIND_CODES);
const UNKNOWN_KINDS = Array.from({ length: 32 }, (_, kind) => kind).filter((kind) => !KNOWN_KINDS.includes(kind));

export function drawHostile(cipher: Cipher, random: RandomStream, aim = ANYWHERE): Hostile {
  switch (random.within(0, 5)) {
    case 0:
      return drawClear(random, aim);
    case 1:
      return drawMisfit(cipher, random, aim);
    default:
      return drawSealed(cipher, random, aim);
  }
}

function drawSealed(cipher: Cipher, random: RandomStream, aim: Aim): Hostile {
  const { kind, direction, layout, says } = pickSealed(random, aim);
  const link = aim.link(random);
  const sequence = aim.sequence(random, kind);
  const fields = Object.fromEntries(
    Object.entries(layout).map(([field, bits]) => [field, aim.field(random, field, bits)]),
  );
  const envelope = { kind, version: layouts.VERSION, link, sequence, direction };
  const due = link === 0 ? MALFORMED : says(link, sequence, fields);
  return { frame: sealedWith(cipher, aim.secured, envelope, packed(layout, fields)), due };
}

function pickSealed(random: RandomStream, { kinds }: Aim): SealedSort {
  const code = pick(random, kinds);
  return SEALED.find(({ kind }) => kind === code)!;
}

/** Reserved bits are mostly 0 and identities mostly not, so that what comes behind them is looked at too. */
export function drawField(random: RandomStream, field: string, bits: number): number {
  if (field === 'reserved' && random.chance(3, 4)) return 0;
  if (field === 'magnitudeTenths' && random.chance(1, 2)) return pick(random, [0, 1, 4, 5, 6, 499, 500, 501, 511]);
  if ((field === 'counter' || field === 'wearable') && random.chance(3, 4)) return random.within(1, 0xffff);
  return drawNumber(random, bits);
}

/** Sealed rightly, but of a version, a kind or a length that is not. */
function drawMisfit(cipher: Cipher, random: RandomStream, aim: Aim): Hostile {
  const { kind, direction, layout } = pickSealed(random, aim);
  const wrong = pick(random, ['version', 'kind', 'length'] as const);
  const envelope = {
    kind: wrong === 'kind' ? pick(random, UNKNOWN_KINDS) : kind,
    version: wrong === 'version' ? pick(random, [0, 2, 3, 4, 5, 6, 7]) : layouts.VERSION,
    link: aim.link(random),
    sequence: random.bits(),
    direction,
  };
  const bytes = layouts.bytesOf(layout);
  const length = wrong === 'length' ? pick(random, [0, bytes - 1, bytes + 1, 2 * bytes, 200]) : bytes;
  return { frame: sealedWith(cipher, aim.secured, envelope, drawBytes(random, length)), due: wrong };
}

function drawClear(random: RandomStream, aim: Aim): Hostile {
  const { kind, frame, layout } = pick(random, CLEAR);
  const fields: Record<string, number | Uint8Array> = {};
  for (const [field, bits] of Object.entries(layout)) {
    fields[field] = bits > 32 ? aim.bytes(random, field, bits / 8) : aim.field(random, field, bits);
  }
  const checked = packed({ ...layouts.PAIRING_HEADER_BITS, ...layout }, {
    ...fields,
    kind,
    version: layouts.VERSION,
  } as Values);
  const whole = Uint8Array.of(...checked, ...packed({ checksum: 32 }, { checksum: crc32(checked) }));
  return { frame: whole, due: clearSays(frame, fields) };
}

function clearSays(frame: string, { reason, ...fields }: Record<string, number | Uint8Array>): object | 'malformed' {
  for (const field of ['counter', 'wearable', 'link', 'session']) if (fields[field] === 0) return MALFORMED;
  if (frame !== 'refuse') return { frame, ...fields };
  const known = REASONS[Number(reason)];
  return known === undefined ? MALFORMED : { frame, ...fields, reason: known };
}
