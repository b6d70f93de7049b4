import { describe, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { session } from '../../core/marking/sample-records.ts'
import { sampleReading } from './sample-reading.ts'
import { probeOf, temporaryWorkspace, thrownBy, withOneHit } from './temporary.ts'

const problem = new WhorlError('clip-empty', { path: '/clips/x.mp4' }).toProblem()
const foundAt = (path: string, sha256: string) => ({
  path,
  probe: probeOf({ path, sha256 }),
  problem: null,
  timestampsSeconds: [0, 1 / 240, 2 / 240],
})
const notThere = (path: string) => ({ path, probe: null, problem, timestampsSeconds: [] })

describe('a clip', () => {
  it('comes back with its probe and its very timestamps', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const { id: sessionId } = workspace.createSession(session)
    const timestampsSeconds = [0, 1 / 3, Number.EPSILON, 1e9 + 0.1]
    const path = '/clips/it’s "one"\n🎾 -rf.mp4'
    const made = workspace.addClip(sessionId, { ...foundAt(path, 'a'), timestampsSeconds })
    expect(made).toMatchObject({ sessionId, path, name: 'it’s "one"\n🎾 -rf.mp4', hits: 0, problem: null })
    expect(made.probe).toEqual(probeOf({ path, sha256: 'a' }))
    const again = reopen()
    expect(again.clips(sessionId)).toEqual([made])
    expect(again.timestampsSeconds(made.id)).toEqual(timestampsSeconds)
  })

  it('added twice to a session is one, at the path given last; another session has its own', () => {
    const { workspace } = temporaryWorkspace()
    const [one, two] = [workspace.createSession(session).id, workspace.createSession(session).id]
    const first = workspace.addClip(one, foundAt('/a/x.mp4', 'same'))
    const again = workspace.addClip(one, foundAt('/b/y.mp4', 'same'))
    expect(again).toMatchObject({ id: first.id, path: '/b/y.mp4', name: 'y.mp4' })
    const elsewhere = workspace.addClip(two, foundAt('/b/y.mp4', 'same'))
    expect(elsewhere.id).not.toBe(first.id)
    expect(workspace.findClipsBySha256('same').map(clip => clip.id)).toEqual([first.id, elsewhere.id])
  })

  it('that cannot be used is kept with its problem, once, and heals when the file does', () => {
    const { workspace } = temporaryWorkspace()
    const { id: sessionId } = workspace.createSession(session)
    const bad = workspace.addClip(sessionId, notThere('/clips/x.mp4'))
    expect(bad).toMatchObject({ probe: null, problem })
    expect(workspace.addClip(sessionId, notThere('/clips/x.mp4')).id).toBe(bad.id)
    const healed = workspace.addClip(sessionId, foundAt('/clips/x.mp4', 'b'))
    expect(healed).toMatchObject({ id: bad.id, problem: null, probe: { sha256: 'b' } })
  })

  it('with new contents at an old path is another clip', () => {
    const { workspace } = temporaryWorkspace()
    const { id: sessionId } = workspace.createSession(session)
    const first = workspace.addClip(sessionId, foundAt('/a.mp4', 'old'))
    expect(workspace.addClip(sessionId, foundAt('/a.mp4', 'new')).id).not.toBe(first.id)
    expect(workspace.clips(sessionId)).toHaveLength(2)
  })

  it('that moved is located by its contents, and its readings stay fresh', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    const { sha256 } = probeOf()
    expect(workspace.locate(clipId, { path: '/new/place.mp4', sha256 })).toMatchObject({
      path: '/new/place.mp4',
      probe: { path: '/new/place.mp4' },
    })
    workspace.setProbe(clipId, {
      path: '/third/place.mp4',
      probe: probeOf({ path: '/third/place.mp4' }),
      problem: null,
      timestampsSeconds: workspace.timestampsSeconds(clipId),
    })
    expect(workspace.hit(hitId).row.stale).toBe(false)
  })

  it('is not taken for another one under its marks', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId } = withOneHit(workspace)
    const other = { path: '/other.mp4', sha256: 'other' }
    const refused = { code: 'clip-not-same', facts: { path: '/other.mp4', name: 'drive 01.mp4' } }
    expect(thrownBy(() => workspace.locate(clipId, other))).toMatchObject(refused)
    expect(thrownBy(() => workspace.setProbe(clipId, foundAt('/other.mp4', 'other')))).toMatchObject(refused)
    expect(workspace.clip(clipId).path).toBe('/clips/drive 01.mp4')
  })

  it('whose file went away keeps its identity and comes back', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    expect(workspace.setProbe(clipId, notThere('/clips/drive 01.mp4'))).toMatchObject({
      probe: null,
      problem,
    })
    expect(workspace.findClipsBySha256(probeOf().sha256)).toHaveLength(1)
    const back = workspace.locate(clipId, { path: '/clips/drive 01.mp4', sha256: probeOf().sha256 })
    expect(back).toMatchObject({ problem: null, probe: { frames: 50 } })
    expect(workspace.timestampsSeconds(clipId)).toHaveLength(50)
    expect(workspace.hit(hitId).row.stale).toBe(false)
  })

  it('with new times makes its readings stale', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId, hitId } = withOneHit(workspace)
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.setProbe(clipId, { ...foundAt('/clips/drive 01.mp4', probeOf().sha256) })
    expect(workspace.hit(hitId).row.stale).toBe(true)
  })

  it('takes a person’s word on its capture rate and gives it back', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId, hitId } = withOneHit(workspace)
    const silent = probeOf({
      capture: { fps: null, source: 'unknown', relativeUncertainty: null },
      warnings: [
        { code: 'capture-rate-unknown', message: 'say it' },
        { code: 'dropped-frames', message: '2' },
      ],
    })
    const timestampsSeconds = workspace.timestampsSeconds(clipId)
    workspace.setProbe(clipId, { path: silent.path, probe: silent, problem: null, timestampsSeconds })
    workspace.saveReading(hitId, sampleReading(), '1')
    workspace.setCaptureFps(clipId, 240)
    expect(workspace.clip(clipId).probe).toMatchObject({
      capture: { fps: 240, source: 'user', relativeUncertainty: null },
      warnings: [{ code: 'dropped-frames' }],
    })
    expect(workspace.hit(hitId).row.stale).toBe(true)
    expect(workspace.setCaptureFps(clipId, null).probe).toEqual(silent)
  })

  it('counts its hits, and takes them along when it is removed', () => {
    const { workspace } = temporaryWorkspace()
    const { clipId, hitId } = withOneHit(workspace)
    workspace.createHit(clipId, { fromFrame: 30, toFrame: 40 })
    workspace.saveEdit(hitId, { kind: 'decide', verdict: { state: 'accepted', reason: '' } })
    expect(workspace.clip(clipId)).toMatchObject({ hits: 2, accepted: 1 })
    workspace.removeClip(clipId)
    expect(workspace.hits({})).toEqual([])
  })

  it('or session that is not there is named', () => {
    const { workspace } = temporaryWorkspace()
    expect(thrownBy(() => workspace.addClip('none', foundAt('/a', 'a')))).toMatchObject({
      facts: { what: 'session', id: 'none' },
    })
    for (const look of [
      () => workspace.clip('none'),
      () => workspace.timestampsSeconds('none'),
      () => workspace.setCaptureFps('none', 1),
      () => workspace.setProbe('none', foundAt('/a', 'a')),
      () => workspace.locate('none', { path: '/a', sha256: 'a' }),
      () => workspace.removeClip('none'),
      () => workspace.createHit('none', { fromFrame: 0, toFrame: 1 }),
    ])
      expect(thrownBy(look)).toMatchObject({ code: 'not-in-workspace', facts: { what: 'clip', id: 'none' } })
  })
})
