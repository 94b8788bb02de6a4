// What YAML allows and the language does not, found while the text is cut into lexemes and before a tree is built of it:
// anchors and aliases (that explode), tags, directives, several documents, deep nesting, characters nobody can see.
import { type CST, Parser } from 'yaml';
import type { Problems } from '../problems.js';
import type { Span } from '../source.js';
import { lexemes } from './lexemes.js';
import { quoted } from './node.js';
import { Unclosed } from './unclosed.js';

/** Entries on the parser's stack: the deepest thing a scenario needs (a map in a list in a map) takes 8. */
const MAX_STACK = 32;
/** A file of 1 MB made of nothing but brackets has more; a step has about 40. */
const MAX_LEXEMES = 400_000;

const REFUSED: Partial<Record<CST.TokenType, readonly [string, string]>> = {
  anchor: ['an anchor', 'the language has no anchors and aliases: write the value where it is used, or use rows'],
  alias: ['an alias', 'the language has no anchors and aliases: write the value where it is used, or use rows'],
  tag: ['a tag', 'the language has no tags: write the plain value'],
  'directive-line': ['a directive', 'a scenario is YAML 1.2 without directives: leave the line out'],
  'doc-end': ['an end of the document', 'a file is one scenario: leave the "..." out'],
};

const BEFORE_A_DOCUMENT: readonly CST.TokenType[] = ['space', 'comment', 'newline', 'directive-line', 'doc-mode'];

/** Reports every hazard. False where the text must not be parsed at all. */
export function withoutHazards(text: string, problems: Problems): boolean {
  return charactersAllowed(text, problems) && linesAllowed(text, problems) && lexemesAllowed(text, problems);
}

/** Spaces that look like one, and marks that a merge left behind, make YAML stumble in places that are not to blame. */
function linesAllowed(text: string, problems: Problems): boolean {
  let allowed = true;
  for (const { index, 0: found } of text.matchAll(/^[ \t]*[\xa0\u1680\u2000-\u200a\u202f\u205f\u3000]/gm)) {
    const start = index + found.length - 1;
    const message = 'what indents this line looks like a space and is none';
    problems.on({ start, end: start + 1 }, 'yaml', message, 'lines are indented with ordinary spaces');
    allowed = false;
  }
  for (const { index, 0: found } of text.matchAll(/^(?:<{7}|={7}|>{7}|\|{7})(?= |\r?$)/gm)) {
    const expected = 'one of the two versions, and no marks';
    problems.on({ start: index, end: index + found.length }, 'yaml', 'a merge is not finished here', expected);
    allowed = false;
  }
  return allowed;
}

function charactersAllowed(text: string, problems: Problems): boolean {
  const forbidden = /[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\u{10000}-\u{10ffff}]|\r(?!\n)/gu;
  let allowed = true;
  for (const { index, 0: character } of text.matchAll(forbidden)) {
    const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    const span = { start: index, end: index + character.length };
    problems.on(span, 'yaml', `the character U+${code} cannot stand here`, 'a scenario is printable text in UTF-8');
    allowed = false;
  }
  return allowed;
}

function lexemesAllowed(text: string, problems: Problems): boolean {
  const parser = new Parser();
  let count = 0;
  let begun = false;
  const unclosed = new Unclosed(text, problems);
  for (const { lexeme, type, offset } of lexemes(text)) {
    count += 1;
    unclosed.see({ lexeme, type, offset });
    if (count > MAX_LEXEMES) return tooMuch(offset, 'the file holds too much', 'split the scenario', problems);
    const error = [...parser.next(lexeme)].find((token) => token.type === 'error');
    // Behind the first of these the parser only stumbles; where a bracket is not closed, that is why.
    if (error?.type === 'error') {
      if (!unclosed.found()) problems.on(...syntaxError(error));
      return false;
    }
    if (parser.stack.length > MAX_STACK) {
      return tooMuch(offset, 'this is nested too deeply', 'a scenario nests no deeper than a list in a step', problems);
    }
    const span = { start: offset, end: offset + lexeme.trimEnd().length };
    const refused = REFUSED[type];
    if (refused !== undefined) problems.on(span, 'yaml', `${refused[0]} ${quoted(lexeme)}`, refused[1]);
    if (type === 'doc-start' && begun) {
      problems.on(span, 'yaml', 'a second document begins', 'a file is one scenario: put the other in its own file');
      return false;
    }
    begun ||= !BEFORE_A_DOCUMENT.includes(type);
  }
  return !unclosed.found();
}

function syntaxError(token: CST.ErrorToken): [Span, 'yaml', string, string] {
  const expected = 'lists and maps as YAML writes them; perhaps something above is indented wrongly';
  return [{ start: token.offset, end: token.offset + token.source.length }, 'yaml', token.message, expected];
}

function tooMuch(offset: number, message: string, expected: string, problems: Problems): false {
  problems.on({ start: offset, end: offset + 1 }, 'limit', message, expected);
  return false;
}
