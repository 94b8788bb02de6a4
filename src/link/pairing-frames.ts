// Frames of a pairing before there is a key (PAI-1, PAI-2): clear, and with a CRC-32 against bit errors at their end.
import { type Place, placesOf, putBytes, putNumber, type Sheet, sheetOf, takeBytes, takeNumber } from './bits.js';
import { crc32 } from './crc32.js';
import { CLEAR, type ClearKind, type FrameRefusal, kindOf } from './kinds.js';
import {
  ANSWER_BITS,
  bytesOf,
  CHECKSUM_BITS,
  HELLO_BITS,
  PAIRING_HEADER_BITS,
  PAIRING_NONCE_BITS,
  REFUSE_BITS,
  VERSION,
} from './layout.js';
import { REFUSE_REASONS } from './messages.js';
import type { ClearMessage } from './pairing-messages.js';
import { soundClear } from './sound.js';

const HEADER = placesOf(PAIRING_HEADER_BITS);
const HEADER_BYTES = bytesOf(PAIRING_HEADER_BITS);
const HELLO = placesOf(HELLO_BITS, HEADER_BYTES);
const ANSWER = placesOf(ANSWER_BITS, HEADER_BYTES);
const NONCE = placesOf(PAIRING_NONCE_BITS, HEADER_BYTES);
const REFUSE = placesOf(REFUSE_BITS, HEADER_BYTES);
const CHECKSUM_BYTES = CHECKSUM_BITS / 8;

/** A message as the bytes that cross the air. Throws on one that readPairing would refuse. */
export function writePairing(message: ClearMessage): Uint8Array {
  if (!soundClear(message)) throw new Error(`no such ${message.frame} is sent: ${JSON.stringify(message)}`);
  const { code, bytes } = CLEAR[message.frame];
  const sheet = sheetOf(bytes);
  putNumber(sheet, HEADER.kind, code);
  putNumber(sheet, HEADER.version, VERSION);
  putBody(sheet, message);
  putNumber(sheet, checksumOf(bytes), crc32(sheet.bytes.subarray(0, bytes - CHECKSUM_BYTES)));
  return sheet.bytes.slice();
}

/** The message of a frame, or why there is none. Never throws, whatever the frame. */
export function readPairing(frame: Uint8Array): ClearMessage | FrameRefusal {
  const kind = kindOf(frame);
  if (typeof kind === 'string') return kind;
  if (kind.sealed) return 'kind';
  const sheet = sheetOf(kind.bytes);
  sheet.bytes.set(frame);
  const checksum = takeNumber(sheet, checksumOf(kind.bytes));
  if (checksum !== crc32(frame.subarray(0, kind.bytes - CHECKSUM_BYTES))) return 'checksum';
  const message = messageOf(kind, sheet);
  return message !== null && soundClear(message) ? message : 'malformed';
}

function checksumOf(bytes: number): Place {
  return placesOf({ checksum: CHECKSUM_BITS }, bytes - CHECKSUM_BYTES).checksum;
}

function putBody(sheet: Sheet, message: ClearMessage): void {
  // Every kind begins with the two identities, in the same place.
  putNumber(sheet, HELLO.counter, message.counter);
  putNumber(sheet, HELLO.wearable, message.wearable);
  switch (message.frame) {
    case 'hello':
      putBytes(sheet, HELLO.publicKey, message.publicKey);
      break;
    case 'answer':
      putNumber(sheet, ANSWER.link, message.link);
      putNumber(sheet, ANSWER.session, message.session);
      putBytes(sheet, ANSWER.publicKey, message.publicKey);
      putBytes(sheet, ANSWER.commitment, message.commitment);
      break;
    case 'nonce':
    case 'reveal':
      putBytes(sheet, NONCE.nonce, message.nonce);
      break;
    case 'refuse':
      putNumber(sheet, REFUSE.reason, REFUSE_REASONS.indexOf(message.reason));
  }
}

/** Null where the reason of a refusal is unknown. */
function messageOf({ frame: name }: ClearKind, sheet: Sheet): ClearMessage | null {
  const counter = takeNumber(sheet, HELLO.counter);
  const wearable = takeNumber(sheet, HELLO.wearable);
  switch (name) {
    case 'hello':
      return { frame: name, counter, wearable, publicKey: takeBytes(sheet, HELLO.publicKey) };
    case 'answer':
      return {
        frame: name,
        counter,
        wearable,
        link: takeNumber(sheet, ANSWER.link),
        session: takeNumber(sheet, ANSWER.session),
        publicKey: takeBytes(sheet, ANSWER.publicKey),
        commitment: takeBytes(sheet, ANSWER.commitment),
      };
    case 'nonce':
    case 'reveal':
      return { frame: name, counter, wearable, nonce: takeBytes(sheet, NONCE.nonce) };
    case 'refuse': {
      const reason = REFUSE_REASONS[takeNumber(sheet, REFUSE.reason)];
      return reason === undefined ? null : { frame: name, counter, wearable, reason };
    }
  }
}
