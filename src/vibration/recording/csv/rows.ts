// Judges row after row of a recording: a sample that follows, one that begins a new stretch, or none.
import { AXES, type Axis } from '../../weighting/filter.js';
import { counted, finding, Places, shown } from '../findings.js';
import { GREATEST_ACCELERATION, isPossible } from '../limits.js';
import type { Finding } from '../recording.js';
import type { Clock, Stamp } from './clock.js';
import { type Column, quote } from './columns.js';
import { type DecimalMark, isBlank, isComment, readNumber, resolutionOf } from './numbers.js';

/** How a row is written. */
export interface RowShape {
  readonly columns: readonly Column[];
  /** Columns of the header. */
  readonly width: number;
  readonly mark: DecimalMark;
}

/** none: no row of samples, such as a comment; bad: one that cannot be used, and that the next one does not follow. */
export type Judgement = 'none' | 'bad' | 'begins' | 'follows';

/** Times beyond it, in s, are none: in every count of seconds it is some ten thousand years away. */
export const GREATEST_TIME_S = 1e12;

export class Rows {
  /** m/s², of the row judged last, where it begins or follows. */
  readonly sample: Record<Axis, number> = { x: 0, y: 0, z: 0 };
  private readonly bad = new Places();
  private readonly long = new Places();
  private readonly impossible = new Places();

  /** clock: null where the rate is given. */
  constructor(
    private readonly shape: RowShape,
    private readonly clock: Clock | null,
  ) {}

  /** cells: null where the line could not be split. */
  judge(cells: readonly string[] | null, line: number): Judgement {
    if (cells !== null && (isBlank(cells) || isComment(cells[0]!))) return 'none';
    const stamp = this.read(cells, line);
    if (stamp === null) return this.breakOff();
    return (this.clock?.follow(stamp, line) ?? true) ? 'follows' : 'begins';
  }

  tooLong(line: number): Judgement {
    this.long.add(() => `line ${line}`);
    return this.breakOff();
  }

  findings(ended: boolean): Finding[] {
    const found: Finding[] = [];
    const left = 'left out, and a new stretch begins behind';
    if (this.bad.count > 0) {
      const says = `${counted(this.bad.count, 'row')} cannot be read: ${this.bad}. They are ${left}. Correct or delete them.`;
      found.push(finding('doubts', 'rows-bad', says));
    }
    if (this.long.count > 0) {
      const says = `${counted(this.long.count, 'line')} too long to be a row: ${this.long}. They are ${left}. Is the file damaged?`;
      found.push(finding('doubts', 'lines-too-long', says));
    }
    if (this.impossible.count > 0) {
      const which = `${counted(this.impossible.count, 'sample')} not finite or beyond ${GREATEST_ACCELERATION} m/s²`;
      found.push(
        finding('doubts', 'samples-impossible', `${which}: ${this.impossible}. They are ${left}. Check the recorder.`),
      );
    }
    return [...found, ...(this.clock?.findings(ended) ?? [])];
  }

  private breakOff(): 'bad' {
    this.clock?.skip();
    return 'bad';
  }

  /** Sets the sample and gives the row's time; null for a bad row, which is told. */
  private read(cells: readonly string[] | null, line: number): Stamp | null {
    const refuse = (says: () => string) => {
      this.bad.add(() => `line ${line}, ${says()}`);
      return null;
    };
    if (cells === null) return refuse(() => 'its quotes do not match');
    const { columns, width, mark } = this.shape;
    for (let at = width; at < cells.length; at++) {
      if (cells[at]!.trim() !== '') return refuse(() => `${cells.length} cells where the header has ${width}`);
    }
    let stamp: Stamp = NO_TIME;
    for (const { role, index, name, factor } of columns) {
      const cell = cells[index];
      if (cell === undefined) return refuse(() => `column ${quote(name)} is missing`);
      const number = readNumber(cell, mark);
      const value = number === null ? Number.NaN : number * factor;
      if (number === null || (role === 'time' && !(Math.abs(value) <= GREATEST_TIME_S))) {
        return refuse(
          () => `column ${quote(name)}: ${quote(cell)} is no number${role === 'time' ? ' for a time' : ''}`,
        );
      }
      if (role === 'time') stamp = { time: value, resolution: resolutionOf(cell) * factor };
      else if (isPossible(value)) this.sample[role] = value;
      else {
        this.impossible.add(() => `line ${line}, column ${quote(name)}: ${shown(value)}`);
        return null;
      }
    }
    return stamp;
  }
}

const NO_TIME: Stamp = { time: 0, resolution: 0 };

/** The axes that a recording has, in order. */
export function axesOf(columns: readonly Column[]): Axis[] {
  return AXES.filter((axis) => columns.some(({ role }) => role === axis));
}
