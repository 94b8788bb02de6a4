// The two ends of the air, as steps about it name them: a tool for its counter, a worker for the wearable.
import { type Field, field, refusal } from '../fields/field.js';
import { readName } from '../fields/text.js';

const LINK = 'the two ends as [tool, worker]';

export const link: Field<readonly [tool: string, worker: string]> = field(
  { type: 'array', description: LINK },
  (node, reading) => {
    const [toolNode, workerNode, ...others] = node.kind === 'list' ? node.items : [];
    if (toolNode === undefined || workerNode === undefined || others.length > 0) {
      reading.refuse(node, refusal('the air lies between one counter and one wearable', LINK));
      return null;
    }
    const tool = readName(toolNode, 'tool', reading);
    const worker = readName(workerNode, 'worker', reading);
    return tool === null || worker === null ? null : [tool, worker];
  },
);
