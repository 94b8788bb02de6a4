// Why a file cannot be read as a recording at all: a value for the person who gave it.

export interface RecordingError {
  readonly file: string;
  /** Counted from 1; null where no line is to blame. */
  readonly line: number | null;
  /** Offset in the file; null where no byte is to blame. */
  readonly byte: number | null;
  /** Where, what is wrong, and what to do. */
  readonly says: string;
}

export function isRecordingError(opened: object): opened is RecordingError {
  return 'says' in opened;
}

/** How the readers give up on a file; openRecording makes a RecordingError of it. */
export class Refused extends Error {
  constructor(
    readonly says: string,
    readonly place: { readonly line?: number; readonly byte?: number } = {},
  ) {
    super(says);
  }

  of(file: string): RecordingError {
    const { line = null, byte = null } = this.place;
    const where = line !== null ? `, line ${line}` : byte !== null ? `, byte ${byte}` : '';
    return { file, line, byte, says: `${file}${where}: ${this.says}` };
  }
}

/** What the operating system says of a file: not there, not allowed, not readable. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}
