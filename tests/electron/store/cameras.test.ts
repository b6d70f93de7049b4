import { describe, expect, it } from 'vitest'
import { clip, session } from '../../core/marking/sample-records.ts'
import { cameraDetails } from '../service/stand-in-host.ts'
import { sampleReading } from './sample-reading.ts'
import { temporaryWorkspace, thrownBy, withOneHit } from './temporary.ts'

describe('a camera', () => {
  it('comes back as it was kept and as it was changed, after a restart', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const made = workspace.createCamera(cameraDetails)
    expect(made).toEqual({ id: made.id, ...cameraDetails })
    const said = {
      seconds: 0.005,
      uncertaintySeconds: null,
      by: { way: 'said' as const, clip: null, day: '2026-05-31' },
    }
    workspace.updateCamera(made.id, { ...cameraDetails, name: 'Phone', readout: said })
    expect(reopen().cameras()).toEqual([{ id: made.id, ...cameraDetails, name: 'Phone', readout: said }])
  })

  it('has a name of its own, whatever its letters', () => {
    const { workspace } = temporaryWorkspace()
    const { id } = workspace.createCamera(cameraDetails)
    const twice = { ...cameraDetails, name: cameraDetails.name.toUpperCase() }
    expect(thrownBy(() => workspace.createCamera(twice))).toMatchObject({ code: 'name-taken' })
    expect(workspace.updateCamera(id, twice).name).toBe(twice.name)
  })

  it('that is not there is named', () => {
    const { workspace } = temporaryWorkspace()
    for (const look of [
      () => workspace.removeCamera('none'),
      () => workspace.updateCamera('none', cameraDetails),
    ])
      expect(thrownBy(look)).toMatchObject({ code: 'not-in-workspace', facts: { what: 'camera' } })
  })
})

describe('what a session took from a camera', () => {
  const takenFrom = {
    ...session.camera,
    name: 'Phone, 240 fps',
    captureFps: 239.76,
    relativeUncertainty: 1e-4,
  }
  const taking = {
    ...session,
    camera: { ...session.camera, captureFps: 239.76, relativeUncertainty: 1e-4, takenFrom },
  }

  it('stays when the camera is changed or removed, and is in what a reading says it used', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { id } = workspace.createCamera(cameraDetails)
    const { sessionId, hitId } = withOneHit(workspace)
    expect(workspace.hit(hitId).used).toBeNull()
    workspace.updateSession(sessionId, taking)
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.removeCamera(id)
    expect(reopen().session(sessionId).camera).toEqual(taking.camera)
    const used = {
      name: session.camera.name,
      profile: 'Phone, 240 fps',
      captureFps: clip.capture.source === 'user' ? clip.capture.fps : 239.76,
      relativeUncertainty: 1e-4,
      exposureSeconds: session.camera.exposureSeconds,
      ballDiameterMetres: session.ball.diameterMetres,
    }
    expect(usedNow()).toMatchObject(used)

    // The reading keeps the values that it was made with, though the session goes on to others.
    reopen().updateSession(sessionId, session)
    expect(usedNow()).toMatchObject(used)
    function usedNow() {
      return reopen().hit(hitId).used
    }
  })

  it('makes no reading stale by its name alone', () => {
    const { workspace } = temporaryWorkspace()
    const { sessionId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.updateSession(sessionId, { ...session, camera: { ...session.camera, takenFrom } })
    expect(workspace.hit(hitId).row.stale).toBe(false)
  })
})
