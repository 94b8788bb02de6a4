// The examples of scenarios/README.md as whole scenarios: the first is one, the others are parts put into it.

/** Every yaml block, in the order of the text. */
export function yamlBlocks(markdown: string): readonly string[] {
  return [...markdown.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map(([, block = '']) => block);
}

/** The top-level keys of a scenario text in order, each with its lines. */
function partsOf(text: string): ReadonlyMap<string, string> {
  const parts = text.split(/^(?=[a-z])/m).filter((part) => part.trim() !== '');
  return new Map(parts.map((part) => [part.slice(0, part.indexOf(':')), part]));
}

/** Each example as a scenario text: the keys of a part stand in the place of those of the first example. */
export function readmeScenarios(markdown: string): readonly string[] {
  const [first = '', ...others] = yamlBlocks(markdown);
  const whole = partsOf(first);
  return [first, ...others.map((part) => [...new Map([...whole, ...partsOf(part)]).values()].join(''))];
}
