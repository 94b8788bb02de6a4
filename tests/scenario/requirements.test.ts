import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { renderProblem } from '../../src/scenario/render.js';
import { readRequirements } from '../../src/scenario/requirements.js';

const CATALOGUE = readFileSync(new URL('../../scenarios/catalogue/requirements.yaml', import.meta.url), 'utf8');

/** How many of each the devices' requirements have. */
const COUNTS = { MAG: 6, TRG: 5, ACC: 3, KEP: 5, CLK: 1, CEL: 1, PAI: 7, TAL: 7, WEA: 5 };

describe('the catalogue of requirements', () => {
  it('has every requirement once, in order, with its text', () => {
    const catalogue = readRequirements(CATALOGUE, 'scenarios/catalogue/requirements.yaml');
    expect(catalogue.ok ? [] : catalogue.problems.map(renderProblem)).toEqual([]);
    const requirements = catalogue.ok ? catalogue.groups.flatMap((group) => group.requirements) : [];
    const ids = Object.entries(COUNTS).flatMap(([group, count]) => {
      return Array.from({ length: count }, (_, index) => `${group}-${index + 1}`);
    });
    expect(requirements.map(({ id }) => id)).toEqual(ids);
    for (const { text } of requirements) expect(text).toMatch(/^[A-Z0-9].*\.$/);
  });

  it.each([
    ['- a', ['here stands a list']],
    [
      'groups: [{title: A, requirements: {TAL-1: x}}, {title: B, requirements: {TAL-1: y}}]',
      ['TAL-1 stands here twice'],
    ],
    ['groups: [{title: A, requirements: {tal1: x}}]', ['"tal1" is no identifier']],
    ['groups: [{title: A, requirements: {TAL-1: }}]', ['this is no text']],
    ['groups: [{titel: A, requirements: {TAL-1: x}}]', ['a group needs "title"', 'a group has no "titel"']],
    ['group: []', ['a catalogue has no "group"', 'a catalogue needs "groups"']],
  ])('%s is refused', (text, messages) => {
    const catalogue = readRequirements(text, 'r.yaml');
    expect(catalogue.ok ? [] : catalogue.problems.map(({ message }) => message).toSorted()).toEqual(
      [...messages].sort(),
    );
  });
});
