import type { Dots } from '../../core/picture/paddle-dots.ts'
import { heldBackReason } from '../../core/ratings/held-back-reason.ts'
import { paddleFigure } from '../../core/ratings/paddle-figure.ts'
import { rated } from '../service/rating-figures.ts'
import type { HitEvidence } from '../store/workspace.ts'

/** A session's own figure of each set-up that was hit in it, from these hits alone. */
export const sessionFigures = (evidence: readonly HitEvidence[]): Dots[] =>
  [...new Set(evidence.flatMap(({ row }) => row.setUpId ?? []))].map(setUpId =>
    ownFigure(evidence.filter(({ row }) => row.setUpId === setUpId)),
  )

function ownFigure(evidence: readonly HitEvidence[]): Dots {
  const { paddle, setUp } = evidence[0]!.row
  const hits = evidence.map(rated)
  const { figure } = paddleFigure(hits)
  const rates = (isIn: boolean) =>
    hits.flatMap(hit => ((heldBackReason(hit) === null) === isIn && hit.rpm !== null ? [hit.rpm] : []))
  return {
    ...{ paddle: paddle ?? '', setUp: setUp ?? '', dots: rates(true), leftOut: rates(false) },
    ...{ meanRpm: figure?.meanRpm ?? null, band: figure?.band ?? null },
  }
}
