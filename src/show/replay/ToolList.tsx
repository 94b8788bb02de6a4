// One row a tool: who runs it, for whom it counts, what it is set to, how long it may still run, and what share of each
// worker's points it gave.
import { Box } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { Cell } from './Cell.js';
import type { Layout } from './layout.js';
import { More } from './More.js';
import { ToolRow } from './ToolRow.js';
import { toolColumns } from './tool-columns.js';

interface Props {
  readonly moment: Moment;
  readonly marks: readonly string[];
  readonly layout: Layout;
}

export function ToolList({ moment, marks, layout }: Props) {
  const shown = moment.tools.slice(0, layout.tools);
  if (shown.length === 0) return null;
  const columns = toolColumns(layout, moment.workers.length);
  const sharers = columns.share > 0 ? moment.workers : [];
  return (
    <Box flexDirection="column" flexShrink={0} marginTop={layout.gaps.tools ? 1 : 0}>
      <Box>
        <Cell columns={columns.name} gap={1} dim>
          tool
        </Cell>
        <Cell columns={columns.state} gap={1} dim>
          state
        </Cell>
        <Cell columns={columns.owner} gap={1} dim>
          for
        </Cell>
        <Cell columns={columns.magnitude} gap={1} dim>
          set m/s²
        </Cell>
        <Cell columns={columns.left} gap={1} dim>
          time left
        </Cell>
        <Cell columns={columns.heading} right dim>
          share of
        </Cell>
        {sharers.map((worker, index) => (
          <Cell key={worker.name} columns={columns.share} right dim>
            {columns.share > worker.name.length ? worker.name : (marks[index] ?? '?')}
          </Cell>
        ))}
      </Box>
      {shown.map((tool) => (
        <ToolRow key={tool.name} moment={moment} tool={tool} marks={marks} columns={columns} />
      ))}
      <More count={moment.tools.length - shown.length} />
    </Box>
  );
}
