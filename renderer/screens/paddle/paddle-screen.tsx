import './paddle.css'
import { useMemo } from 'react'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { TopLine } from '../../components/top-line.tsx'
import { useAnswer } from '../../state/answers.ts'
import { ratingChanges, useRanks } from '../../state/ratings.ts'
import { hrefOf } from '../../state/route.ts'
import { tableScale } from '../paddles/table-scale.ts'
import { DriftNote } from './drift-note.tsx'
import { HitList } from './hit-list.tsx'
import { OtherFigures } from './other-figures.tsx'
import { SessionList } from './session-list.tsx'
import { SetUpCard } from './set-up-card.tsx'

/** One paddle: its set-ups side by side, its sessions, and every hit with why it counts or not. */
export function PaddleScreen({ paddleId }: { paddleId: string }) {
  const asked = useAnswer('ratings.paddle', { paddleId }, [...ratingChanges])
  const { value: page, problem, progress, again } = asked
  const ranks = useRanks(page !== null)
  const scale = useMemo(() => tableScale(page?.setUps.flatMap(({ row }) => (row ? [row] : [])) ?? []), [page])
  if (problem && !page) {
    return (
      <div className="paddle">
        <ProblemNote problem={problem} onAgain={again} />
        <p>
          <a href={hrefOf({ screen: 'paddles' })}>All paddles</a>
        </p>
      </div>
    )
  }
  if (!page) return <Progress progress={progress} what="Gathering the paddle" />
  const rated = page.setUps.filter(({ row }) => row !== null && row.meanRpm !== null)
  const hits = page.setUps.flatMap(setUp => setUp.hits)
  return (
    <div className="paddle">
      <TopLine>
        <a href={hrefOf({ screen: 'paddles' })}>Paddles</a>
        <span className="quiet">{`\u00a0›\u00a0${page.name}`}</span>
      </TopLine>
      <header>
        <h1>{page.name}</h1>
        {page.notes && <p className="quiet">{page.notes}</p>}
        {rated.length > 1 && (
          <a href={hrefOf({ screen: 'compare', setUpIds: rated.map(({ setUpId }) => setUpId) })}>
            Compare its set-ups
          </a>
        )}
      </header>
      <OtherFigures page={page} />
      <div className="set-up-cards">
        {page.setUps.map(setUp => (
          <SetUpCard
            key={setUp.setUpId}
            setUp={setUp}
            scale={scale}
            rank={ranks.get(setUp.setUpId) ?? null}
          />
        ))}
      </div>
      {hits.length > 0 && (
        <>
          <SessionList setUps={page.setUps} scale={scale} />
          {page.drift && <DriftNote drift={page.drift} setUps={page.setUps} />}
          <HitList setUps={page.setUps} scale={scale} />
        </>
      )}
    </div>
  )
}
