import { strToU8 } from 'fflate'
import type { Bundle, BundledHit } from '../../core/contract/bundle.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import type { BenchHit } from '../../core/contract/workspace.ts'
import { captureFpsOf } from '../../core/marking/capture-fps-of.ts'
import { marksDocumentOf } from '../../core/marking/marks-document-of.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import { frameTimes } from '../../core/timing/frame-times.ts'
import { gather } from '../export/gather.ts'
import { hashOf } from '../export/hash-of.ts'
import { type Files, zipped } from '../export/zip.ts'
import type { HitEvidence, Workspace } from '../store/workspace.ts'

export type BundleOf = { kind: 'paddle' | 'session'; id: string }
/** A small grey picture of a frame as PNG; null where the clip is not at hand. */
export type TakePicture = (clipId: string, frame: number) => Promise<Uint8Array | null>

/**
 * Everything that a paddle's or a session's figures rest on, as one zip. The same workspace gives the same
 * bytes: nothing in it says when it was made.
 */
export async function makeBundle(
  workspace: Workspace,
  of: BundleOf,
  version: string,
  picture: TakePicture,
): Promise<Uint8Array> {
  const { name, chosen } = chosenHits(workspace, of)
  if (chosen.length === 0) throw new WhorlError('bundle-empty', { name })
  const pictures: Files = {}
  const hits: BundledHit[] = []
  for (const one of chosen) {
    const bench = workspace.hit(one.row.hitId)
    const taken = await picturesOf(bench, picture)
    Object.assign(pictures, taken)
    hits.push({ ...one, marks: marksOf(workspace, bench), pictures: Object.keys(taken) })
  }
  const clipIds = [...new Set(chosen.map(({ row }) => row.clipId))].toSorted()
  const sessionIds = [...new Set(chosen.map(({ row }) => row.sessionId))].toSorted()
  const bundle: Bundle = {
    schema: 'whorl.bundle/1',
    of: { kind: of.kind, name },
    software: { version, methodVersion },
    sessions: sessionIds.map(id => {
      const {
        clips: _,
        hits: _hits,
        accepted: _accepted,
        heldBack: _held,
        ...session
      } = workspace.session(id)
      return session
    }),
    clips: clipIds.map(id => {
      const { name: clipName, probe } = workspace.clip(id)
      return { id, name: clipName, clip: probe && { ...probe, path: '' } }
    }),
    hits,
    figures: gather(chosen).flatMap(({ row }) => row ?? []),
  }
  const files: Files = { 'bundle.json': jsonOf(bundle), ...pictures }
  const manifest = {
    schema: 'whorl.manifest/1',
    files: Object.entries(files).map(([path, bytes]) => ({ path, sha256: hashOf(bytes) })),
  }
  return zipped({ 'manifest.json': jsonOf(manifest), ...files })
}

const jsonOf = (value: unknown) => strToU8(`${JSON.stringify(value, null, 1)}\n`)

function chosenHits(workspace: Workspace, { kind, id }: BundleOf): { name: string; chosen: HitEvidence[] } {
  const evidence = workspace.evidence().toSorted((a, b) => (a.row.hitId < b.row.hitId ? -1 : 1))
  if (kind === 'session') {
    const { day, place } = workspace.session(id)
    return {
      name: [day, place].filter(Boolean).join(' '),
      chosen: evidence.filter(({ row }) => row.sessionId === id),
    }
  }
  const paddle = workspace.paddles().find(one => one.id === id)
  if (!paddle) throw new WhorlError('not-in-workspace', { what: 'paddle', id })
  return { name: paddle.name, chosen: evidence.filter(({ row }) => row.paddle === paddle.name) }
}

/** The hit's marks as the reading was made from them; null where there were none to read from. */
function marksOf(workspace: Workspace, { row, marks: hit }: BenchHit): BundledHit['marks'] {
  const { probe: clip } = workspace.clip(row.clipId)
  if (clip === null || row.reading?.method === 'surface') return null
  const session = workspace.session(row.sessionId)
  const captureFps = captureFpsOf(clip, session.camera)
  const timestampsSeconds = workspace.timestampsSeconds(row.clipId)
  const { playbackFps } = clip
  const frameTimesSeconds = frameTimes({ timestampsSeconds, playbackFps, captureFps, trusted: true })
  return marksDocumentOf({ hit, clip, frameTimesSeconds, session, captureFps }).marks
}

async function picturesOf({ row }: BenchHit, picture: TakePicture): Promise<Files> {
  const { fromFrame, toFrame } = row.window
  const files: Files = {}
  for (const frame of new Set([fromFrame, Math.round((fromFrame + toFrame) / 2), toFrame])) {
    const png = await picture(row.clipId, frame)
    if (png) files[`pictures/${row.hitId}-${frame}.png`] = png
  }
  return files
}
