// A tool: a filled sign while it runs, a hollow one while it does not, with the words beside it.
import { Box } from 'ink';
import type { Moment } from '../../trace/moment.js';
import type { ToolMoment } from '../../trace/moment-tool.js';
import { leftText, magnitudeText, ownerOf, runningText, shareOf } from '../tool-standing.js';
import { Cell } from './Cell.js';
import type { ToolColumns } from './tool-columns.js';

interface Props {
  readonly moment: Moment;
  readonly tool: ToolMoment;
  readonly marks: readonly string[];
  readonly columns: ToolColumns;
}

export function ToolRow({ moment, tool, marks, columns }: Props) {
  const runs = tool.running !== null;
  return (
    <Box>
      <Cell columns={columns.name} gap={1}>
        {tool.name}
      </Cell>
      <Cell columns={columns.state} gap={1} bold={runs}>{`${runs ? '●' : '○'} ${runningText(tool)}`}</Cell>
      <Cell columns={columns.owner} gap={1}>
        {ownerText(moment, tool, marks, columns)}
      </Cell>
      <Cell columns={columns.magnitude} gap={1}>
        {magnitudeText(tool)}
      </Cell>
      <Cell columns={columns.left} gap={1}>
        {leftText(moment, tool)}
      </Cell>
      <Cell columns={columns.heading}> </Cell>
      {(columns.share > 0 ? moment.workers : []).map((worker) => (
        <Cell key={worker.name} columns={columns.share} right>
          {shareText(shareOf(worker, tool.name), columns.share)}
        </Cell>
      ))}
    </Box>
  );
}

function shareText(share: number | null, columns: number): string {
  if (share === null) return '·';
  return columns > '100%'.length ? `${share}%` : `${share}`;
}

function ownerText(moment: Moment, tool: ToolMoment, marks: readonly string[], columns: ToolColumns): string {
  const owner = ownerOf(tool);
  if (owner === undefined) return columns.ownerByMark ? '–' : 'no one';
  return columns.ownerByMark ? (marks[moment.workers.findIndex(({ name }) => name === owner)] ?? '?') : owner;
}
