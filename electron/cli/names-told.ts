import type { Mapping } from '../../core/contract/exchange.ts'
import { repeatedPair, text } from './values.ts'

/** Options that answer names which almost match. */
export const nameOptions = {
  same: {
    takes: 'NAME=OTHER',
    says: 'NAME is the paddle that the other side calls OTHER, again for each',
    read: repeatedPair,
    many: true,
  },
  another: {
    takes: 'NAME',
    says: 'NAME is a paddle of its own, whatever it is almost called, again for each',
    read: text,
    many: true,
  },
} as const

export const namesFrom = (same: [string, string][], another: string[]): Mapping['names'] => [
  ...same.map(([paddle, as]) => ({ paddle, as })),
  ...another.map(paddle => ({ paddle, as: paddle })),
]
