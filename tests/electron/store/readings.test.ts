import { describe, expect, it } from 'vitest'
import { readingSchema } from '../../../core/contract/reading.ts'
import { session } from '../../core/marking/sample-records.ts'
import { sampleReading } from './sample-reading.ts'
import { probeOf, temporaryWorkspace, withOneHit } from './temporary.ts'

const sighting = {
  kind: 'place-sighting' as const,
  sighting: { kind: 'point' as const, frame: 3, mark: 'logo', xPx: 110, yPx: 52 },
}
const accept = { kind: 'decide' as const, verdict: { state: 'accepted' as const, reason: '' } }

describe('a reading', () => {
  it('comes back as it was saved, with its method version, after a restart', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const reading = sampleReading({ rpm: 2331.123456789, reasons: ['ein “Grund”'] })
    expect(readingSchema.parse(reading)).toEqual(reading)
    workspace.saveReading(hitId, reading, '7')
    const again = reopen()
    expect(again.hit(hitId).row).toMatchObject({ reading, methodVersion: '7', stale: false })
    const { rpm, band, flag, counted } = reading
    expect(again.hits({})[0]).toEqual({ ...again.hit(hitId).row, reading: { rpm, band, flag, counted } })
  })

  it('is stale after a click, an undo and a redo, until it is read again; a verdict leaves it fresh', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId, sessionId } = withOneHit(workspace)
    const read = () => workspace.saveReading(hitId, sampleReading(), '1').row.stale
    expect(workspace.staleHits({})).toEqual([hitId])
    expect(read()).toBe(false)
    expect(workspace.staleHits({ sessionId })).toEqual([])
    expect(workspace.saveEdit(hitId, sighting).row.stale).toBe(true)
    expect(workspace.staleHits({ sessionId })).toEqual([hitId])
    expect(read()).toBe(false)
    expect(workspace.saveEdit(hitId, accept).row.stale).toBe(false)
    expect(workspace.undo(hitId).row.stale).toBe(false)
    expect(workspace.undo(hitId).row.stale).toBe(true)
    expect(read()).toBe(false)
    expect(workspace.redo(hitId).row.stale).toBe(true)
  })

  it('has a digest that marks, reading and method version change, and a verdict does not', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const digest = () => workspace.evidence()[0]!.digest
    expect(digest()).toBeNull()
    const seen = new Set<string | null>()
    const readAs = (rpm: number, version: string) => {
      workspace.saveReading(hitId, sampleReading({ rpm }), version)
      seen.add(digest())
    }
    readAs(2300, '1')
    workspace.saveEdit(hitId, accept)
    readAs(2300, '1')
    expect(seen.size).toBe(1)
    readAs(2301, '1')
    readAs(2301, '2')
    workspace.saveEdit(hitId, sighting)
    readAs(2301, '2')
    expect(seen.size).toBe(4)
    workspace.undo(hitId)
    readAs(2301, '2')
    expect(seen.size).toBe(4)
  })

  it('rests on the capture rate that knows the clip best, also while the file is away', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId, clipId, sessionId } = withOneHit(workspace)
    const captureFps = () => workspace.evidence()[0]!.captureFps
    const timestampsSeconds = workspace.timestampsSeconds(clipId)
    const probed = (fps: number | null, source: 'metadata' | 'timestamps' | 'unknown') => {
      const probe = probeOf({ capture: { fps, source, relativeUncertainty: null } })
      workspace.setProbe(clipId, { path: probe.path, probe, problem: null, timestampsSeconds })
    }
    workspace.updateSession(sessionId, { ...session, camera: { ...session.camera, captureFps: 120 } })
    probed(30, 'timestamps')
    expect(captureFps()).toBe(120)
    probed(480, 'metadata')
    expect(captureFps()).toBe(480)
    workspace.setCaptureFps(clipId, 960)
    expect(captureFps()).toBe(960)
    const problem = { schema: 'whorl.error/1' as const, code: 'file-not-found', message: '', hint: '' }
    workspace.setProbe(clipId, { path: '/gone.mp4', probe: null, problem, timestampsSeconds: [] })
    workspace.setCaptureFps(clipId, null)
    expect(captureFps()).toBe(480)
    expect(workspace.evidence()[0]?.row.hitId).toBe(hitId)
  })

  it('is judged with what a person settled and the camera it was filmed by', () => {
    const { workspace } = temporaryWorkspace()
    const { hitId } = withOneHit(workspace)
    const settled = { rpm: 2330, sense: 'clockwise' as const, reason: 'topspin drive' }
    workspace.saveEdit(hitId, { kind: 'settle', settled })
    expect(workspace.evidence()[0]).toMatchObject({ settled, cameraName: 'Kestrel high-speed' })
  })
})
