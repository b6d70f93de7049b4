import type { TableRow } from '../../contract/standings.ts'
import type { Session } from '../../contract/workspace.ts'
import { paddleDots } from '../paddle-dots.ts'
import type { Block, Report } from './blocks.ts'
import type { ReportStyle } from './picture-size.ts'
import {
  budgetTable,
  type ClipCheck,
  cameraFacts,
  closing,
  hitReasons,
  hitsTable,
  type ReportedHit,
  timeCheck,
} from './sections.ts'

export type SessionEvidence = {
  session: Session
  clips: readonly ClipCheck[]
  hits: readonly ReportedHit[]
  /** The session's own figure of each set-up that was hit in it. */
  paddles: readonly Pick<TableRow, 'paddle' | 'setUp' | 'meanRpm' | 'band' | 'dots' | 'leftOut'>[]
  version: string
  methodVersion: string
  style: ReportStyle
}

/** One day with one camera: everything that was filmed, and what came of it. */
export function sessionReport(evidence: SessionEvidence): Report {
  const { session, clips, hits, paddles, style } = evidence
  const used = hits.filter(({ leftOut }) => leftOut === null).length
  return {
    title: `Session of ${session.day}`,
    subtitle: [session.place, session.camera.name].filter(Boolean).join(' · '),
    day: session.day,
    blocks: [
      {
        kind: 'paragraph',
        text: `${hits.length} ${hits.length === 1 ? 'hit was' : 'hits were'} filmed that day on ${clips.length} ${clips.length === 1 ? 'clip' : 'clips'}; ${used} can be used, ${hits.length - used} cannot and the reasons stand below. Each figure comes with a band: the truth lies inside it in 95 of 100 cases. Figures of one day and one camera share that camera’s error, so they can be held against each other better than against those of another day.`,
      },
      ...(paddles.length > 0
        ? [{ kind: 'picture', scene: paddleDots(paddles, ...style.pictures) } as Block]
        : []),
      { kind: 'heading', text: 'Hits' },
      hitsTable(hits, style.figures),
      ...hitReasons(hits),
      ...budgetTable(hits, style.figures),
      { kind: 'heading', text: 'Camera and time check' },
      ...cameraFacts(session, style.figures),
      ...timeCheck(clips, style.figures),
      ...closing(evidence.version, evidence.methodVersion),
    ],
  }
}
