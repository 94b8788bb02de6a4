// Blocks of a capture file in pcapng, the format that Wireshark and its like read: draft-ietf-opsawg-pcapng, sections 3 and 4.
// Only what a capture of one interface needs: a section header, the interface, and enhanced packets. Little-endian.

const SECTION_HEADER = 0x0a0d0d0a;
const INTERFACE = 1;
const ENHANCED_PACKET = 6;

const BYTE_ORDER_MAGIC = 0x1a2b3c4d;
const VERSION = { major: 1, minor: 0 };
/** "The length of the section is not specified." */
const UNSPECIFIED = 0xffffffff;
/** No packet is cut short. */
const NO_LIMIT = 0;
/** Timestamps count units of 10 to the power of -3 s. */
const MILLISECONDS = 3;

const END_OF_OPTIONS = 0;
const COMMENT = 1;
const OPTIONS = {
  section: { application: 4 },
  interface: { name: 2, description: 3, resolution: 9 },
} as const;

type Option = readonly [code: number, value: Uint8Array];

const encoder = new TextEncoder();

export function sectionHeader(application: string, comment: string): Uint8Array {
  const content = new Uint8Array(16);
  const view = new DataView(content.buffer);
  view.setUint32(0, BYTE_ORDER_MAGIC, true);
  view.setUint16(4, VERSION.major, true);
  view.setUint16(6, VERSION.minor, true);
  view.setUint32(8, UNSPECIFIED, true);
  view.setUint32(12, UNSPECIFIED, true);
  return block(SECTION_HEADER, content, [text(COMMENT, comment), text(OPTIONS.section.application, application)]);
}

/** linkType: 16 bits, of the registry of link-layer header types. */
export function interfaceOf(linkType: number, name: string, description: string): Uint8Array {
  const content = new Uint8Array(8);
  const view = new DataView(content.buffer);
  view.setUint16(0, linkType, true);
  view.setUint32(4, NO_LIMIT, true);
  return block(INTERFACE, content, [
    text(OPTIONS.interface.name, name),
    text(OPTIONS.interface.description, description),
    [OPTIONS.interface.resolution, Uint8Array.of(MILLISECONDS)],
  ]);
}

/** atMs: whole, since 1970-01-01 00:00. The packet is one of the first interface. */
export function packet(atMs: number, bytes: Uint8Array, comment: string): Uint8Array {
  const content = new Uint8Array(20 + padded(bytes.length));
  const view = new DataView(content.buffer);
  view.setUint32(4, Math.floor(atMs / 2 ** 32), true);
  view.setUint32(8, atMs % 2 ** 32, true);
  view.setUint32(12, bytes.length, true);
  view.setUint32(16, bytes.length, true);
  content.set(bytes, 20);
  return block(ENHANCED_PACKET, content, [text(COMMENT, comment)]);
}

/** Type, length, content of whole words, options, and the length again, so that a file can be read backwards too. */
function block(type: number, content: Uint8Array, options: readonly Option[]): Uint8Array {
  const all: readonly Option[] = [...options, [END_OF_OPTIONS, new Uint8Array()]];
  const optionBytes = all.reduce((sum, [, value]) => sum + 4 + padded(value.length), 0);
  const length = 12 + content.length + optionBytes;
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, type, true);
  view.setUint32(4, length, true);
  bytes.set(content, 8);
  let at = 8 + content.length;
  for (const [code, value] of all) {
    view.setUint16(at, code, true);
    view.setUint16(at + 2, value.length, true);
    bytes.set(value, at + 4);
    at += 4 + padded(value.length);
  }
  view.setUint32(at, length, true);
  return bytes;
}

function text(code: number, value: string): Option {
  return [code, encoder.encode(value)];
}

/** Everything stands on words of four bytes. */
function padded(length: number): number {
  return Math.ceil(length / 4) * 4;
}
