// CRC-32/ISO-HDLC: polynomial 0x04C11DB7, reflected, all ones before and after. It finds bit errors and stops no attacker.

const REFLECTED_POLYNOMIAL = 0xedb88320;
const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ REFLECTED_POLYNOMIAL : crc >>> 1;
  return crc;
});

/** 0..2^32-1 of the bytes; of all that came before and these where `before` is the CRC-32 of what came before. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = ~before;
  for (let index = 0; index < bytes.length; index++) crc = TABLE[(crc ^ bytes[index]!) & 0xff]! ^ (crc >>> 8);
  return ~crc >>> 0;
}
