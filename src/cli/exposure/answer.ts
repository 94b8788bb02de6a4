// What `counterproof exposure` answers to a command line: pure, so that the command itself only prints it.
import { REGIME_IDS, regimeById } from '../../exposure/regimes.js';
import { mistakesText, unknownRegimeText } from './mistakes.js';
import { readOperations } from './operations.js';
import { exposureOf } from './result.js';
import { exposureSentences } from './sentences.js';

export type Answer = { readonly answer: string } | { readonly mistakes: string };

/** The answer for standard output, or every mistake in the command line at once. */
export function answerExposure(texts: readonly string[], regimeId: string, json: boolean): Answer {
  const regime = regimeById(regimeId);
  const read = readOperations(texts);
  if (regime === undefined || 'wrong' in read) {
    const unknown = regime === undefined ? unknownRegimeText(regimeId, REGIME_IDS) : '';
    return { mistakes: unknown + ('wrong' in read ? mistakesText(read.wrong) : '') };
  }
  const output = exposureOf(read.operations, regime);
  return { answer: json ? `${JSON.stringify(output, null, 2)}\n` : exposureSentences(output) };
}
