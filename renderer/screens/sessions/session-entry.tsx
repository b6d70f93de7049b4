import { useState } from 'react'
import type { Session } from '../../../core/contract/workspace.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { textOfMetres } from '../../../core/units/length.ts'
import { counted } from '../../components/counted.ts'
import { dayWithoutYear, weekdayOf } from '../../components/day-words.ts'
import { HitsPicture } from '../../components/hits-picture.tsx'
import { useHost } from '../../host/host.ts'
import { hrefOf } from '../../state/route.ts'
import { ClipList } from './clip-list.tsx'
import { DayList } from './day/day-list.tsx'
import { textsOf } from './session-fields.ts'
import { SessionForm } from './session-form.tsx'
import { SessionSteps } from './session-steps.tsx'
import type { Adding } from './use-adding.ts'

type SessionEntryProps = { session: Session; open: boolean; adding: Adding }

/** One session: a line while closed, its clips beneath while open. */
export function SessionEntry({ session, open, adding }: SessionEntryProps) {
  const host = useHost()
  const [editing, setEditing] = useState(false)
  return (
    <li className="session" data-open={open}>
      <a
        className="session-line"
        href={hrefOf({ screen: 'sessions', sessionId: open ? null : session.id })}
        aria-expanded={open}
      >
        <span className="session-day">
          <span>{dayWithoutYear(session.day)}</span>
          <span className="quiet">
            {weekdayOf(session.day)}, {session.day.slice(0, 4)}
          </span>
        </span>
        <span className="session-what">
          <span>{session.place || 'Place not said'}</span>
          <span className="quiet">{factsOf(session).join(' · ')}</span>
        </span>
        <span className="session-amount">
          {counted(session.clips, 'clip')}
          <span className="quiet">{counted(session.hits, 'hit')}</span>
        </span>
        <span className="session-progress">
          <HitsPicture hits={session.hits} accepted={session.accepted} heldBack={session.heldBack} />
          <span className="quiet">{progressWords(session)}</span>
        </span>
      </a>
      {open && (
        <div className="session-body">
          {editing ? (
            <SessionForm
              start={textsOf(session)}
              taken={session.camera.takenFrom ?? null}
              verb="Keep changes"
              onKeep={async details => {
                await host.call('sessions.update', { sessionId: session.id, details })
                setEditing(false)
              }}
              onCancel={() => setEditing(false)}
            />
          ) : (
            <SessionSteps session={session} adding={adding} onEdit={() => setEditing(true)} />
          )}
          <DayList sessionId={session.id} />
          <ClipList session={session} adding={adding.act.busy} />
        </div>
      )}
    </li>
  )
}

function progressWords({ hits, accepted, heldBack }: Session) {
  if (hits === 0) return 'no hits yet'
  const held = heldBack > 0 ? `, ${heldBack} held back` : ''
  return `${accepted} accepted${held}`
}

/** What is known of how it was filmed; what is not known is left out. */
function factsOf({ camera, ball, hitBy }: Session): string[] {
  return [
    camera.name,
    camera.captureFps === null
      ? 'capture rate not known'
      : `${Number(camera.captureFps.toFixed(3))}\u00a0fps`,
    camera.exposureSeconds === null ? '' : textOfSeconds(camera.exposureSeconds),
    `${textOfMetres(ball.diameterMetres)} ball`,
    hitBy,
  ].filter(fact => fact !== '')
}
