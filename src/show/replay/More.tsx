// Says that there is more than there is room for.
import { Text } from 'ink';

interface Props {
  readonly count: number;
}

export function More({ count }: Props) {
  return count > 0 ? <Text dimColor>{`… and ${count} more`}</Text> : null;
}
