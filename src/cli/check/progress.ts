// Says how far a long check has come, on a line of its own that is wiped again; only where a person looks on.

export interface Progress {
  done(file: string): void;
  clear(): void;
}

const WIPE = '\r\u001b[K';

export function progressOn(stream: NodeJS.WriteStream, files: number): Progress {
  if (!stream.isTTY || files < 2) return { done: () => {}, clear: () => {} };
  let done = 0;
  return {
    done: (file) => {
      done += 1;
      const line = `${done} of ${files}  ${file}`;
      stream.write(WIPE + line.slice(0, Math.max(0, (stream.columns ?? 80) - 1)));
    },
    clear: () => {
      stream.write(WIPE);
    },
  };
}
