// A line that says how far something long has come, and is wiped again; only where a person looks on.

const WIPE = '\r\u001b[K';

export interface StatusLine {
  readonly show: (line: string) => void;
  readonly clear: () => void;
}

export function statusLineOn(stream: NodeJS.WriteStream): StatusLine {
  if (!stream.isTTY) return { show: () => {}, clear: () => {} };
  let shown = '';
  return {
    show: (line) => {
      if (line === shown) return;
      shown = line;
      stream.write(WIPE + line.slice(0, Math.max(0, (stream.columns ?? 80) - 1)));
    },
    clear: () => {
      if (shown !== '') stream.write(WIPE);
      shown = '';
    },
  };
}
