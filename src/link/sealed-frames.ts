// Frames under a key: tallies, reports, acknowledgements and accepts as bytes (TAL-1, TAL-2, TAL-4).
import { placesOf, putNumber, sheetOf, takeNumber } from './bits.js';
import {
  readAccept,
  readAcknowledgement,
  readReport,
  readTally,
  writeAccept,
  writeAcknowledgement,
  writeReport,
  writeTally,
} from './bodies.js';
import type { Cipher } from './cipher.js';
import { type FrameRefusal, kindOf, SEALED, type SealedKind } from './kinds.js';
import { bytesOf, HEADER_BITS, NONCE_BITS, VERSION } from './layout.js';
import type { SealedMessage } from './pairing-messages.js';
import { soundHeader, soundSealed } from './sound.js';

/** What a link's frames are sealed with: the key of its pairing, 16 bytes, and its session, 1..2^32-1. */
export interface Secured {
  readonly key: Uint8Array;
  readonly session: number;
}

const HEADER = placesOf(HEADER_BITS);
const NONCE = placesOf(NONCE_BITS);

/**
 * Filled anew for each frame, and looked at during a call of a cipher only. Thousands of frames a day cross, so what is
 * short-lived is kept off the heap where it can be; a view of a new array costs more than a copy.
 */
const header = sheetOf(bytesOf(HEADER_BITS));
const nonce = sheetOf(bytesOf(NONCE_BITS));

/**
 * A message as the bytes that cross the air. The caller sees to it that no sequence of a direction is used twice under
 * one key for another content (TAL-2). Throws on a message that openMessage would refuse.
 */
export function sealMessage(cipher: Cipher, secured: Secured, message: SealedMessage): Uint8Array {
  const kind = kindFor(message);
  const { link } = message;
  const sequence = message.frame === 'accept' ? 0 : message.sequence;
  if (!soundHeader(message.frame, link, sequence) || !soundSealed(message)) {
    throw new Error(`no such ${message.frame} is sent: ${JSON.stringify(message)}`);
  }
  putNumber(header, HEADER.kind, kind.code);
  putNumber(header, HEADER.version, VERSION);
  putNumber(header, HEADER.link, link);
  putNumber(header, HEADER.sequence, sequence);
  setNonce(kind, link, secured, sequence);
  const frame = new Uint8Array(kind.bytes);
  frame.set(header.bytes);
  frame.set(cipher.seal(secured.key, nonce.bytes, header.bytes, bodyOf(message)), header.bytes.length);
  return frame;
}

/** The message of a frame that was sealed with this, or why there is none. Never throws, whatever the frame. */
export function openMessage(cipher: Cipher, secured: Secured, frame: Uint8Array): SealedMessage | FrameRefusal {
  const kind = kindOf(frame);
  if (typeof kind === 'string') return kind;
  if (!kind.sealed) return 'kind';
  const { link, sequence } = headerOf(frame);
  if (!soundHeader(kind.frame, link, sequence)) return 'malformed';
  setNonce(kind, link, secured, sequence);
  const body = cipher.open(secured.key, nonce.bytes, header.bytes, frame.slice(header.bytes.length));
  if (body === null) return 'tag';
  const message = messageOf(kind, link, sequence, body);
  return message !== null && soundSealed(message) ? message : 'malformed';
}

/** Link and sequence of a sealed frame of its kind's length. */
export function headerOf(frame: Uint8Array): { link: number; sequence: number } {
  const { bytes } = header;
  for (let index = 0; index < bytes.length; index++) bytes[index] = frame[index]!;
  return { link: takeNumber(header, HEADER.link), sequence: takeNumber(header, HEADER.sequence) };
}

function setNonce({ direction }: SealedKind, link: number, { session }: Secured, sequence: number): void {
  if (session === 0) throw new Error('frames are sealed for a session, and 0 is none');
  putNumber(nonce, NONCE.direction, direction);
  putNumber(nonce, NONCE.link, link);
  putNumber(nonce, NONCE.session, session);
  putNumber(nonce, NONCE.sequence, sequence);
}

function kindFor(message: SealedMessage): SealedKind {
  if (message.frame !== 'accept') return SEALED[message.frame];
  return message.by === 'counter' ? SEALED.counterAccept : SEALED.wearableAccept;
}

function bodyOf(message: SealedMessage): Uint8Array {
  switch (message.frame) {
    case 'tally':
      return writeTally(message);
    case 'report':
      return writeReport(message);
    case 'ack':
      return writeAcknowledgement(message);
    case 'accept':
      return writeAccept(message);
  }
}

function messageOf(kind: SealedKind, link: number, sequence: number, body: Uint8Array): SealedMessage | null {
  switch (kind.frame) {
    case 'tally':
      return readTally(link, sequence, body);
    case 'report':
      return readReport(link, sequence, body);
    case 'ack':
      return readAcknowledgement(link, sequence, body);
    case 'accept':
      return readAccept(link, kind === SEALED.counterAccept ? 'counter' : 'wearable', body);
  }
}
