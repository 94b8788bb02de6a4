// A YAML text cut into lexemes, each with its place: what tells of a hazard before a tree is built.
import { CST, Lexer } from 'yaml';

export interface Lexeme {
  /** As the parser wants it. */
  readonly lexeme: string;
  /** doc-mode for the lexer's marks that stand for no character of the text. */
  readonly type: CST.TokenType;
  /** In UTF-16 units. */
  readonly offset: number;
}

/** Control characters of the lexer that stand for no character of the text. */
const MARKS: readonly string[] = [CST.DOCUMENT, CST.FLOW_END, CST.SCALAR];

export function* lexemes(text: string): Generator<Lexeme> {
  let offset = 0;
  let isScalar = false;
  for (const lexeme of new Lexer().lex(text)) {
    const type: CST.TokenType = isScalar ? 'scalar' : (CST.tokenType(lexeme) ?? 'scalar');
    const isMark: boolean = !isScalar && MARKS.includes(lexeme);
    yield { lexeme, type: isMark && lexeme !== CST.FLOW_END ? 'doc-mode' : type, offset };
    isScalar = isMark && lexeme === CST.SCALAR;
    if (!isMark) offset += lexeme.length;
  }
}
