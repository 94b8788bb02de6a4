// The terminal's size, followed as it changes.
import { useStdout } from 'ink';
import { useEffect, useState } from 'react';

/** What a terminal that does not tell its size is taken for. */
const USUAL = { columns: 80, rows: 24 };

export interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

export function useTerminalSize(): TerminalSize {
  const { stdout } = useStdout();
  const [size, setSize] = useState(() => sizeOf(stdout));
  useEffect(() => {
    const follow = () => setSize(sizeOf(stdout));
    follow();
    stdout.on('resize', follow);
    return () => {
      stdout.off('resize', follow);
    };
  }, [stdout]);
  return size;
}

function sizeOf(stdout: NodeJS.WriteStream): TerminalSize {
  return { columns: stdout.columns || USUAL.columns, rows: stdout.rows || USUAL.rows };
}
