import { type PaddleRating, paddleFigure } from './paddle-figure.ts'
import type { RatedHit } from './rated-hit.ts'

/** What one session alone says of a paddle in a set-up. */
export type SessionFigure = { session: string; day: string } & PaddleRating

/** A paddle's figure session by session, the first day first. */
export function sessionFigures(hits: readonly RatedHit[]): SessionFigure[] {
  const bySession = new Map<string, RatedHit[]>()
  for (const hit of hits) bySession.set(hit.session, [...(bySession.get(hit.session) ?? []), hit])
  return [...bySession]
    .map(([session, own]) => ({ session, day: own[0]!.day, ...paddleFigure(own) }))
    .toSorted((a, b) => (a.day === b.day ? (a.session < b.session ? -1 : 1) : a.day < b.day ? -1 : 1))
}
