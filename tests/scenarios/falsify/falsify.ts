// Falsifies every expectation of a scenario, place by place. A place (a number, a time, a name, a word) is decisive where moving
// it makes the expectation false. Where the expectation says that something has not happened, a swapped name or word stays true
// by nature; such a place is decisive in contrast: another place is moved so that the expectation is false, and with the name or
// word swapped beside that it is true.
import type { Shipped } from '../shipped.js';
import { type Finding, judgeLines } from './judged-lines.js';
import { type Leaf, leavesOf } from './leaves.js';
import { movesOf } from './moves.js';
import { type ScenarioStage, stageOf } from './stage.js';
import { flow, listOf, type Tree } from './tree.js';

export type Outcome = 'decisive' | 'in contrast' | 'missed';

export interface Place {
  readonly expectation: string;
  readonly leaf: Leaf;
  readonly outcome: Outcome;
  /** How many moves were made, and those of them that were found false, or checked on nothing. */
  readonly moves: number;
  readonly falseMoves: readonly string[];
}

/** Of one place so many moves are combined with those of another. */
const COMBINED = 12;

interface Target {
  readonly expectation: Tree;
  readonly leaf: Leaf;
  readonly moves: readonly Tree[];
}

/** Throws where an expectation as it is shipped does not hold. */
export function falsify(shipped: Shipped, folder: string): readonly Place[] {
  const stage = stageOf(shipped.text);
  const expectations = listOf(shipped.text, 'expect');
  const targets = expectations.flatMap((expectation) =>
    leavesOf(expectation, stage).map((leaf) => ({ expectation, leaf, moves: movesOf(expectation, leaf, stage) })),
  );
  const book = new Book(shipped, expectations.map(flow), folder);
  book.judge([...expectations, ...targets.flatMap(({ moves }) => moves)]);
  for (const expectation of expectations) {
    if (!book.runsOf(expectation).every((run) => book.finding(expectation, run) === 'true')) {
      throw new Error(`as it is shipped this does not hold: ${flow(expectation)}`);
    }
  }
  const missed = targets.filter((target) => !isDecisive(target, book) && hasContrast(target.leaf));
  book.judge(missed.flatMap((target) => contrastsOf(target, targets, book, stage).flat()));
  return targets.map((target) => ({
    expectation: flow(target.expectation),
    leaf: target.leaf,
    outcome: outcomeOf(target, targets, book, stage),
    moves: target.moves.length,
    falseMoves: target.moves
      .filter((move) => book.runsOf(move).some((run) => book.finding(move, run) !== 'true'))
      .map(flow),
  }));
}

function outcomeOf(target: Target, targets: readonly Target[], book: Book, stage: ScenarioStage): Outcome {
  if (isDecisive(target, book)) return 'decisive';
  if (!hasContrast(target.leaf)) return 'missed';
  const contrasts = contrastsOf(target, targets, book, stage);
  const shows = (run: string) =>
    contrasts.some(([moved, both]) => book.finding(moved, run) === 'false' && book.finding(both, run) === 'true');
  return book.runsOf(target.expectation).every(shows) ? 'in contrast' : 'missed';
}

/** In every run in which the expectation is judged, a move of this place is found false. */
function isDecisive({ expectation, leaf, moves }: Target, book: Book): boolean {
  // Under another what-if it is judged in other runs.
  if (leaf.path[0] === 'what-if')
    return moves.some((move) => book.runsOf(move).some((run) => book.finding(move, run) === 'false'));
  const isCaught = (finding: Finding | undefined) => finding === 'false' || (finding === 'void' && hasContrast(leaf));
  return book.runsOf(expectation).every((run) => moves.some((move) => isCaught(book.finding(move, run))));
}

function hasContrast({ sort }: Leaf): boolean {
  return sort === 'name' || sort === 'word';
}

/** Pairs of another place moved, found false, and this place moved beside it. */
function contrastsOf(
  { expectation, leaf }: Target,
  targets: readonly Target[],
  book: Book,
  stage: ScenarioStage,
): readonly (readonly [Tree, Tree])[] {
  const others = targets.filter((other) => other.expectation === expectation && other.leaf !== leaf);
  return others.flatMap(({ moves }) =>
    moves
      .filter((move) => book.runsOf(move).some((run) => book.finding(move, run) === 'false'))
      .slice(0, COMBINED)
      .flatMap((move) => bothMoved(move, leaf, stage).map((both) => [move, both] as const)),
  );
}

/** The place moved in an expectation that is moved elsewhere already, which may have changed what could stand there. */
function bothMoved(moved: Tree, { path }: Leaf, stage: ScenarioStage): readonly Tree[] {
  const leaf = leavesOf(moved, stage).find((one) => one.path.join('/') === path.join('/'));
  return leaf === undefined ? [] : movesOf(moved, leaf, stage).slice(0, COMBINED);
}

/** What was found of each expectation so far. */
class Book {
  private readonly findings = new Map<string, ReadonlyMap<string, Finding>>();

  constructor(
    private readonly shipped: Shipped,
    private readonly shippedLines: readonly string[],
    private readonly folder: string,
  ) {}

  judge(expectations: readonly Tree[]): void {
    const newLines = new Set(expectations.map(flow).filter((line) => !this.findings.has(line)));
    if (newLines.size === 0) return;
    // The shipped ones come first in every file: they use all the parameters of the rows.
    const lines = [...new Set([...this.shippedLines, ...newLines])];
    const found = judgeLines(this.shipped, lines, this.folder);
    for (const [index, line] of lines.entries()) this.findings.set(line, found[index]!);
  }

  runsOf(expectation: Tree): readonly string[] {
    return [...(this.findings.get(flow(expectation))?.keys() ?? [])];
  }

  finding(expectation: Tree, run: string): Finding | undefined {
    return this.findings.get(flow(expectation))?.get(run);
  }
}
