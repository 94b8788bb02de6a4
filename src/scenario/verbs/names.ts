// One name as it is, several as a list.
import { flowList, flowText } from '../yaml/flow.js';

export function writeNames(names: readonly string[]): string {
  const texts = names.map(flowText);
  return texts.length === 1 ? (texts[0] ?? '') : flowList(texts);
}
