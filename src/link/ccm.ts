// AES-128-CCM (RFC 3610) from node:crypto: what the sealing of frames stands on (TAL-2).
import { createCipheriv, createDecipheriv } from 'node:crypto';

const ALGORITHM = 'aes-128-ccm';

/** Ciphertext, then the tag of so many bytes. Throws where key (16 bytes), nonce (13) or tag are of no length for CCM. */
export function sealCcm(
  tagBytes: number,
  key: Uint8Array,
  nonce: Uint8Array,
  header: Uint8Array,
  body: Uint8Array,
): Uint8Array {
  const cipher = createCipheriv(ALGORITHM, key, nonce, { authTagLength: tagBytes });
  cipher.setAAD(header, { plaintextLength: body.length });
  const sealed = new Uint8Array(body.length + tagBytes);
  sealed.set(cipher.update(body));
  cipher.final();
  sealed.set(cipher.getAuthTag(), body.length);
  return sealed;
}

/** The body, or null where it is too short to carry a tag or the tag is wrong. Throws as sealCcm. */
export function openCcm(
  tagBytes: number,
  key: Uint8Array,
  nonce: Uint8Array,
  header: Uint8Array,
  sealed: Uint8Array,
): Uint8Array | null {
  const length = sealed.length - tagBytes;
  if (length < 0) return null;
  const decipher = createDecipheriv(ALGORITHM, key, nonce, { authTagLength: tagBytes });
  decipher.setAuthTag(sealed.subarray(length));
  decipher.setAAD(header, { plaintextLength: length });
  try {
    const body = decipher.update(sealed.subarray(0, length));
    // Only final() tells of a wrong tag: what update() gives before it is not to be believed.
    decipher.final();
    return body;
  } catch {
    return null;
  }
}
