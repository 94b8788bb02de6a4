// A piece of text in a column of fixed width; what does not fit is cut off with an ellipsis.
import { Box, Text } from 'ink';
import type { ReactNode } from 'react';

interface Props {
  readonly columns: number;
  readonly right?: boolean;
  readonly bold?: boolean;
  readonly dim?: boolean;
  readonly color?: string | undefined;
  readonly children: ReactNode;
}

export function Cell({ columns, right = false, bold = false, dim = false, color, children }: Props) {
  return (
    <Box width={columns} flexShrink={0} justifyContent={right ? 'flex-end' : 'flex-start'}>
      <Text wrap="truncate-end" bold={bold} dimColor={dim} {...(color === undefined ? {} : { color })}>
        {children}
      </Text>
    </Box>
  );
}
