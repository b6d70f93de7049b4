import { useMemo } from 'react'
import type { QueueEntry } from '../../../core/contract/queue.ts'
import type { ClipRecord, ListedHit, Session } from '../../../core/contract/workspace.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { rpmScaleOf } from '../../components/rpm-scale.ts'
import { useAnswer } from '../../state/answers.ts'
import { useSessionHits } from '../../state/hit-rows.ts'
import { toggleClip, useOpenClip } from '../../state/open-clip.ts'
import { ClipEntry } from './clip-entry.tsx'
import { SessionElsewhere } from './session-elsewhere.tsx'
import { SessionQueue } from './session-queue.tsx'
import { WatchedFolder } from './watched-folder.tsx'

/** The clips of an open session. */
export function ClipList({ session, adding }: { session: Session; adding: boolean }) {
  const clips = useAnswer('clips.list', { sessionId: session.id }, ['clips', 'sessions', 'hits'])
  const hits = useSessionHits(session.id)
  const paddles = useAnswer('paddles.list', {}, ['paddles'])
  const entries = useAnswer('queue.state', { sessionId: session.id }, ['queue', 'clips']).value?.entries ?? []
  const isOut = new Set(entries.flatMap(({ clipId, state }) => (unfinished.includes(state) ? [clipId] : [])))
  const isUnread = (clip: ClipRecord) => clip.hits === 0 && clip.problem === null && !isOut.has(clip.id)
  const unread = clips.value?.filter(isUnread).length ?? 0
  const openClip = useOpenClip(state => state.clipId)
  const scale = rpmScaleOf(hits.value?.flatMap(hit => hit.reading?.band ?? []) ?? [])
  const problem = clips.problem ?? hits.problem ?? paddles.problem
  const hitsOf = useMemo(() => byClip(hits.value ?? []), [hits.value])

  return (
    <>
      {problem && <ProblemNote problem={problem} />}
      {!clips.value && !clips.problem && <Progress progress={null} what="Looking at the clips" />}
      <div className="session-reads">
        <SessionQueue session={session} entries={entries} unread={unread} />
        <SessionElsewhere session={session} entries={entries} unread={unread} />
        <WatchedFolder sessionId={session.id} />
      </div>
      <ul className="clips">
        {clips.value?.map(clip => (
          <ClipEntry
            key={clip.id}
            clip={clip}
            hits={hitsOf.get(clip.id) ?? []}
            paddles={paddles.value ?? []}
            cameraFps={session.camera.captureFps}
            scale={scale}
            open={openClip === clip.id}
            onOpen={() => toggleClip(clip.id)}
            queued={entries.find(entry => entry.clipId === clip.id) ?? null}
          />
        ))}
      </ul>
      {clips.value?.length === 0 && !adding && (
        <p className="quiet">
          The clips of this session will stand here. Drop them anywhere on this page, or add them.
        </p>
      )}
    </>
  )
}

const unfinished: QueueEntry['state'][] = ['waiting', 'reading', 'elsewhere']

function byClip(hits: readonly ListedHit[]): ReadonlyMap<string, ListedHit[]> {
  const clips = new Map<string, ListedHit[]>()
  for (const hit of hits) {
    const there = clips.get(hit.clipId)
    if (there) there.push(hit)
    else clips.set(hit.clipId, [hit])
  }
  return clips
}
