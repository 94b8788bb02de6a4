// A piece of text in a column of fixed width; what does not fit is cut off with an ellipsis.
import { Box, Text } from 'ink';
import type { ReactNode } from 'react';

interface Props {
  readonly columns: number;
  readonly right?: boolean;
  /** Columns kept blank on the right, also where the text is cut off. */
  readonly gap?: number;
  readonly bold?: boolean;
  readonly dim?: boolean;
  readonly color?: string | undefined;
  readonly children: ReactNode;
}

export function Cell({ columns, right = false, gap = 0, bold = false, dim = false, color, children }: Props) {
  return (
    <Box width={columns} paddingRight={gap} flexShrink={0} justifyContent={right ? 'flex-end' : 'flex-start'}>
      <Text wrap="truncate-end" bold={bold} dimColor={dim} {...(color === undefined ? {} : { color })}>
        {children}
      </Text>
    </Box>
  );
}
