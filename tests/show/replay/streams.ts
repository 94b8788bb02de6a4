// A terminal to run the replay in without one: what is written is kept, keys are put in.
import { EventEmitter } from 'node:events';
import { PassThrough } from 'node:stream';
import { setImmediate } from 'node:timers/promises';

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const ESCAPES = /\x1b\[[0-9;?]*[A-Za-z]/g;

export class FakeTerminal {
  readonly written: string[] = [];
  rawMode = false;
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;

  constructor(columns: number, rows: number, hasKeys = true) {
    const stdin = Object.assign(new PassThrough(), {
      isTTY: hasKeys,
      setRawMode: (on: boolean) => {
        this.rawMode = on;
      },
      ref: () => {},
      unref: () => {},
    });
    this.stdin = stdin as unknown as NodeJS.ReadStream;
    const stdout = Object.assign(new EventEmitter(), {
      isTTY: true,
      columns,
      rows,
      write: (text: string, done?: () => void) => {
        this.written.push(text);
        done?.();
        return true;
      },
    });
    this.stdout = stdout as unknown as NodeJS.WriteStream;
  }

  async press(keys: string): Promise<void> {
    (this.stdin as unknown as PassThrough).write(keys);
    await this.settle();
  }

  async resize(columns: number, rows: number): Promise<void> {
    Object.assign(this.stdout, { columns, rows });
    this.stdout.emit('resize');
    await this.settle();
  }

  /** Lets ink draw what is to be drawn: it holds frames back for up to 33 ms. */
  async settle(): Promise<void> {
    for (let turn = 0; turn < 8; turn++) await setImmediate();
    await new Promise((resolve) => setTimeout(resolve, 50));
  }

  /** The last frame that was drawn, without escape sequences. */
  frame(): string {
    const frames = this.written.map((text) => text.replace(ESCAPES, '')).filter((text) => text.includes('q quit'));
    return frames.at(-1) ?? '';
  }
}
