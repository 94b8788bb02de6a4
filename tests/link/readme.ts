// src/link/README.md taken apart: its tables by heading, and its examples.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const README = readFileSync(fileURLToPath(new URL('../../src/link/README.md', import.meta.url)), 'utf8');

/** The rows of the table that begins with this column after a heading, each by column. Throws where there is none. */
export function tableOf(heading: string, firstColumn: string): readonly Readonly<Record<string, string>>[] {
  const [, section] = README.split(new RegExp(`^#{2,3} ${heading}$`, 'm'));
  const [, table] = (section ?? '').split(new RegExp(`^(?=\\|\\s*${firstColumn}\\s*\\|)`, 'm'));
  if (table === undefined) throw new Error(`README.md has no table ${firstColumn} under ${heading}`);
  const lines = table.split('\n');
  const end = lines.findIndex((line) => !line.startsWith('|'));
  const [columns = [], , ...rows] = lines.slice(0, end).map(cellsOf);
  return rows.map((cells) => Object.fromEntries(columns.map((column, index) => [column, cells[index] ?? ''])));
}

function cellsOf(line: string): readonly string[] {
  return line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim());
}

export interface Example {
  readonly name: string;
  readonly message: Readonly<Record<string, unknown>>;
  readonly nonce: string | null;
  readonly body: readonly Line[] | null;
  readonly frame: readonly Line[];
}

/** Hexadecimal digits, and the fields that lie in them. */
export interface Line {
  readonly digits: string;
  readonly fields: readonly string[];
}

export function examples(): readonly Example[] {
  const [, ...sections] = README.split(/^### Example: /m);
  return sections.map((section) => {
    const body = blockOf(section, 'body');
    return {
      name: section.split('\n', 1)[0]!,
      message: JSON.parse(blockOf(section, 'json') ?? ''),
      nonce: /^Nonce `([0-9a-f]+)`/m.exec(section)?.[1] ?? null,
      body: body === null ? null : linesOf(body),
      frame: linesOf(blockOf(section, 'frame') ?? ''),
    };
  });
}

function blockOf(section: string, language: string): string | null {
  return new RegExp(`^\`\`\`${language}\n([\\s\\S]*?)^\`\`\``, 'm').exec(section)?.[1] ?? null;
}

function linesOf(block: string): readonly Line[] {
  return block
    .trimEnd()
    .split('\n')
    .map((line) => {
      const [digits = '', fields = ''] = line.split('  ');
      return { digits, fields: fields.split('+') };
    });
}
