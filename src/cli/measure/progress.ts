// Says how far a long recording has been read, on a line of its own that is wiped again; only where a person looks on.

const WIPE = '\r\u001b[K';

export interface PartProgress {
  readonly at: (file: string, part: number) => void;
  readonly clear: () => void;
}

export function partOn(stream: NodeJS.WriteStream): PartProgress {
  if (!stream.isTTY) return { at: () => {}, clear: () => {} };
  let shown = '';
  return {
    at: (file, part) => {
      const line = `${Math.floor(100 * part)} % of ${file}`;
      if (line === shown) return;
      shown = line;
      stream.write(WIPE + line.slice(0, Math.max(0, (stream.columns ?? 80) - 1)));
    },
    clear: () => {
      if (shown !== '') stream.write(WIPE);
    },
  };
}
