import type { QueueEntry } from '../../../core/contract/queue.ts'
import type { ClipRecord, ListedHit, Paddle } from '../../../core/contract/workspace.ts'
import { digits } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { HitsPicture } from '../../components/hits-picture.tsx'
import { Picture } from '../../components/picture.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { CaptureRate } from './capture-rate.tsx'
import { ClipTrouble } from './clip-trouble.tsx'
import { Finding } from './finding.tsx'
import { OpenClip } from './open-clip.tsx'
import { QueuedWords } from './queued-words.tsx'

type ClipEntryProps = {
  clip: ClipRecord
  hits: ListedHit[]
  paddles: Paddle[]
  cameraFps: number | null
  /** One scale for all hits of the session. */
  scale: RpmScale
  open: boolean
  onOpen: () => void
  /** Where it stands in the session's queue. */
  queued: QueueEntry | null
}

/** One clip: a small picture, what it is, what is odd about it, how far it is; opened, its hits. */
export function ClipEntry({ clip, hits, paddles, cameraFps, scale, open, onOpen, queued }: ClipEntryProps) {
  const { probe } = clip
  const heldBack = hits.filter(hit => hit.verdict.state === 'held-back').length
  // What came out is told until somebody has looked at it, and once: a finding may be the reason.
  const isTold = probe?.warnings.some(({ message }) => queued?.said.startsWith(message)) ?? false
  const tellsQueue = queued !== null && !isTold && (queued.state !== 'done' || clip.accepted === 0)
  const asksRate = probe !== null && probe.capture.fps === null
  return (
    <li className="clip" data-open={open}>
      <button type="button" className="clip-line" aria-expanded={open} onClick={onOpen}>
        <span className="clip-picture">
          {probe && <Picture clipId={clip.id} frame={Math.floor(probe.frames / 2)} maxWidthPx={192} />}
        </span>
        <span className="clip-name">{clip.name}</span>
        <span className="clip-facts figure">
          {probe ? clipFacts(clip) : !clip.problem && <span className="unit">waits to be looked at</span>}
        </span>
        <span className="clip-hits">
          <HitsPicture hits={clip.hits} accepted={clip.accepted} heldBack={heldBack} widthPx={120} />
          <WantsALook hits={hits} />
        </span>
        <span className="clip-count figure">
          {clip.hits > 0 && (
            <>
              {clip.accepted}
              <span className="quiet"> of {clip.hits}</span>
            </>
          )}
        </span>
      </button>
      {(clip.problem || asksRate || tellsQueue || (probe?.warnings.length ?? 0) > 0) && (
        <div className="clip-notes">
          {probe?.warnings.map(warning => (
            <Finding key={warning.code} finding={warning} />
          ))}
          {asksRate && <CaptureRate clip={clip} cameraFps={cameraFps} />}
          {tellsQueue && queued && <QueuedWords entry={queued} />}
          {clip.problem && <ClipTrouble clip={clip} problem={clip.problem} />}
        </div>
      )}
      {open && <OpenClip clip={clip} hits={hits} paddles={paddles} cameraFps={cameraFps} scale={scale} />}
    </li>
  )
}

/** Of the hits nobody has decided on: where several rates fit, and where none does. */
function WantsALook({ hits }: { hits: ListedHit[] }) {
  const open = hits.filter(({ verdict, reading }) => verdict.state === 'open' && reading !== null)
  const none = open.filter(({ reading }) => reading?.rpm === null).length
  const ambiguous = open.filter(
    ({ reading }) => reading?.rpm !== null && reading?.flag === 'ambiguous',
  ).length
  return (
    <>
      {ambiguous > 0 && (
        <span className="clip-look">
          {hits.length > 1 && `${ambiguous} `}
          <FlagMark flag="ambiguous" />
        </span>
      )}
      {none > 0 && (
        <span className="clip-look quiet">{hits.length > 1 ? `${none} without a figure` : 'no figure'}</span>
      )}
    </>
  )
}

const sources = {
  user: 'as you said',
  metadata: 'from the file',
  timestamps: 'from its frame times',
  unknown: '',
}

function clipFacts({ probe }: ClipRecord) {
  if (!probe) return null
  const { fps, source } = probe.capture
  return (
    <>
      <span>
        {fps === null ? '?' : Number(fps.toFixed(3))}
        <span className="unit">{'\u00a0fps '}</span>
        <span className="unit">{sources[source]}</span>
      </span>
      <span>
        {digits(probe.frames)}
        <span className="unit">{'\u00a0frames'}</span>
      </span>
      <span>
        {probe.widthPx}×{probe.heightPx}
      </span>
    </>
  )
}
