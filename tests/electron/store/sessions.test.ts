import { describe, expect, it } from 'vitest'
import { session } from '../../core/marking/sample-records.ts'
import { sampleReading } from './sample-reading.ts'
import { temporaryWorkspace, thrownBy, withOneHit } from './temporary.ts'

const nothingKnown = {
  ...session.camera,
  captureFps: null,
  relativeUncertainty: null,
  exposureSeconds: null,
  readoutSeconds: null,
  readoutUncertaintySeconds: null,
  focalLengthPx: null,
}

describe('a session', () => {
  it('comes back as it was given, with its counts, after a restart', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const made = workspace.createSession(session)
    expect(made).toEqual({ ...session, id: made.id, clips: 0, hits: 0, accepted: 0, heldBack: 0 })
    const bare = workspace.createSession({
      ...session,
      camera: nothingKnown,
      maxRpm: null,
      clickStandardUncertaintyPx: null,
    })
    expect(reopen().session(bare.id)).toMatchObject({ camera: nothingKnown, maxRpm: null })
  })

  it('list has the latest day first, and of one day the one made last', () => {
    const { workspace } = temporaryWorkspace()
    const days = ['2026-05-30', '2026-06-01', '2026-05-31', '2026-06-01']
    const ids = days.map(day => workspace.createSession({ ...session, day }).id)
    expect(workspace.sessions().map(one => one.id)).toEqual([ids[3], ids[1], ids[2], ids[0]])
  })

  it('counts its clips and hits by verdict', () => {
    const { workspace } = temporaryWorkspace()
    const { sessionId, clipId, hitId } = withOneHit(workspace)
    const other = workspace.createHit(clipId, { fromFrame: 22, toFrame: 40 }).row.hitId
    workspace.createHit(clipId, { fromFrame: 41, toFrame: 45 })
    workspace.saveEdit(hitId, { kind: 'decide', verdict: { state: 'accepted', reason: '' } })
    workspace.saveEdit(other, { kind: 'decide', verdict: { state: 'held-back', reason: 'blurred' } })
    expect(workspace.session(sessionId)).toMatchObject({ clips: 1, hits: 3, accepted: 1, heldBack: 1 })
    expect(workspace.sessions()[0]).toEqual(workspace.session(sessionId))
  })

  it('that changes camera facts makes its readings stale; another name or note does not', () => {
    const { workspace } = temporaryWorkspace()
    const { sessionId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.updateSession(sessionId, {
      ...session,
      day: '2026-06-02',
      notes: 'windy',
      camera: { ...session.camera, name: 'Kestrel B' },
    })
    expect(workspace.hit(hitId).row).toMatchObject({ stale: false, day: '2026-06-02' })
    workspace.updateSession(sessionId, {
      ...session,
      camera: { ...session.camera, exposureSeconds: 1 / 4000 },
    })
    expect(workspace.hit(hitId).row.stale).toBe(true)
  })

  it('takes all that hangs on it along when it is removed', () => {
    const { workspace } = temporaryWorkspace()
    const { sessionId, clipId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.removeSession(sessionId)
    expect(workspace.isEmpty()).toBe(true)
    expect(workspace.hits({})).toEqual([])
    for (const look of [() => workspace.clip(clipId), () => workspace.hit(hitId)])
      expect(thrownBy(look)).toMatchObject({ code: 'not-in-workspace' })
  })

  it('that is not there is named', () => {
    const { workspace } = temporaryWorkspace()
    for (const look of [
      () => workspace.session('none'),
      () => workspace.updateSession('none', session),
      () => workspace.removeSession('none'),
    ])
      expect(thrownBy(look)).toMatchObject({ code: 'not-in-workspace', facts: { what: 'session' } })
  })
})
