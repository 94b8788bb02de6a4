// Fields that take one of a few words.
import { quoted } from '../yaml/node.js';
import { type Field, refusal, scalarField } from './field.js';

/** One of these words. */
export function choice<const W extends string>(words: readonly W[]): Field<W> {
  const description = `one of ${words.join(', ')}`;
  return scalarField({ type: 'string', description, enum: words }, 'text', (text) => {
    const word = words.find((known) => known === text);
    return word ?? refusal(`unknown word ${quoted(text)}`, description, { word: text, known: words });
  });
}

export const yesOrNo: Field<'yes' | 'no'> = choice(['yes', 'no']);
