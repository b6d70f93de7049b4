import type { ClipHolds, DayTurn, TurnClip } from '../contract/test-day.ts'

type Planned = Pick<DayTurn, 'hits' | 'leftOut'> & { clips: readonly Pick<TurnClip, 'trouble'>[] }

/** How many clips a turn is filmed in. */
export const clipsWanted = ({ hits }: Pick<DayTurn, 'hits'>, holds: ClipHolds): number =>
  holds === 'turn' ? Math.min(1, hits) : hits

/** Its clips that count: one that cannot be measured has to be filmed again. */
export const clipsThere = ({ clips }: Planned): number =>
  clips.filter(({ trouble }) => trouble === null).length

/** How many clips of a turn are still to come; none of one that is left out. */
export const clipsMissing = (turn: Planned, holds: ClipHolds): number =>
  turn.leftOut ? 0 : Math.max(0, clipsWanted(turn, holds) - clipsThere(turn))

/** The turn that the next clip goes to: the first in order that still misses one; -1 when all is filmed. */
export const nextTurn = (turns: readonly Planned[], holds: ClipHolds): number =>
  turns.findIndex(turn => clipsMissing(turn, holds) > 0)
