// What the columns of a recording hold, from the names in its header.
import { AXES, type Axis } from '../../weighting/filter.js';
import { Refused } from '../error.js';
import { finding } from '../findings.js';
import type { Finding } from '../recording.js';
import { accelerationUnit, isUnit, timeUnit } from './units.js';

export type Role = 'time' | Axis;

interface Named {
  readonly role: Role;
  /** null where none stands there. */
  readonly unit: string | null;
}

export interface Column {
  readonly role: Role;
  readonly index: number;
  readonly name: string;
  /** In one unit of the column: m/s², or s. */
  readonly factor: number;
}

const TIME = /^(t|time|times|timestamp|elapsed|elapsedtime|zeit)$/;
const AXIS = /^(?:a|acc|accel|acceleration|axis|ch|channel)?([xyz])(?:a|acc|accel|acceleration|axis)?$/;
const IN_BRACKETS = /^(.*)[([{<]([^([{<]*)[)\]}>]\s*$/;
/** A sentence shows no more of what stands in a file. */
const SHOWN_CHARACTERS = 40;

/** What stands in a file, for a sentence. */
export function quote(text: string): string {
  return JSON.stringify(text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}…` : text);
}

/** How many of the names tell a role, an axis among them; 0 for a line that is no header. */
export function countRoles(names: readonly string[]): number {
  const roles = names.flatMap((name) => readName(name)?.role ?? []);
  return roles.some((role) => role !== 'time') ? roles.length : 0;
}

/** units: by column, where a row of units follows the header; else empty. Throws Refused. */
export function readColumns(names: readonly string[], units: readonly string[], line: number): [Column[], Finding[]] {
  const columns: Column[] = [];
  const assumed: Finding[] = [];
  for (const [index, name] of names.entries()) {
    const named = readName(name);
    if (named === null) continue;
    const { role } = named;
    if (columns.some((column) => column.role === role)) {
      throw new Refused(`two columns are named ${role}. Leave one of them, and give the other another name`, { line });
    }
    const unit = named.unit ?? units[index] ?? null;
    const factor = unit === null ? 1 : role === 'time' ? timeUnit(unit) : accelerationUnit(unit);
    if (factor === null) {
      const [known, example] = role === 'time' ? ['s or ms', 's'] : ['m/s² or g', 'm/s²'];
      const says = `the unit of column ${quote(name)} is not known. State ${known}, as in "${role} (${example})"`;
      throw new Refused(says, { line });
    }
    if (unit === null) assumed.push(assumption(name, role));
    columns.push({ role, index, name: name.trim(), factor });
  }
  return [columns, assumed];
}

function assumption(name: string, role: Role): Finding {
  const [unit, other] = role === 'time' ? ['s', 'ms'] : ['m/s²', 'g'];
  const says = `Column ${quote(name)} states no unit: ${unit} is assumed. If it is ${other}, state it: "${role} (${other})".`;
  // A vibration in g that is taken for m/s² is ten times too low; a time that is wrong shows in the length.
  return finding(role === 'time' ? 'notes' : 'doubts', 'unit-assumed', says);
}

/** Whether a row that follows a header states the units of its columns: it does so for each axis. */
export function isUnitsRow(names: readonly string[], cells: readonly string[]): boolean {
  return names.every((name, index) => {
    const role = readName(name)?.role;
    return role === undefined || (cells[index] !== undefined && isUnit(cells[index]));
  });
}

function readName(text: string): Named | null {
  const [name, unit] = separateUnit(text.trim());
  const letters = name.toLowerCase().replace(/[^a-z]/g, '');
  if (TIME.test(letters)) return { role: 'time', unit };
  const axis = AXES.find((one) => one === AXIS.exec(letters)?.[1]);
  return axis === undefined ? null : { role: axis, unit };
}

/** "x (m/s²)", "x [g]", "x_g", "time/ms": a name, and the unit behind it. */
function separateUnit(text: string): [string, string | null] {
  const bracketed = IN_BRACKETS.exec(text);
  if (bracketed !== null) return [bracketed[1]!, bracketed[2]!.trim()];
  for (const { index } of text.matchAll(/[\s_,:/]+/g)) {
    const behind = text.slice(index).replace(/^[\s_,:/]+/, '');
    if (isUnit(behind)) return [text.slice(0, index), behind];
  }
  return [text, null];
}
