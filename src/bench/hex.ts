// Bytes as the trace has them.

export function hexText(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('hex');
}
