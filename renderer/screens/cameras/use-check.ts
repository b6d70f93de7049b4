import { useState } from 'react'
import type { CameraProfile, FoundBy } from '../../../core/contract/cameras.ts'
import type { LooseClip } from '../../../core/contract/checks.ts'
import { circleFromRim } from '../../../core/geometry/circle-from-rim.ts'
import { today } from '../../components/day-words.ts'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { checkRead } from './check-fields.ts'
import type { Found } from './check-result.tsx'
import {
  type Checked,
  type CheckField,
  type CheckTexts,
  type Guide,
  guides,
  startCheck,
} from './check-ways.ts'
import { partOf } from './found-part.ts'
import type { RimPoint } from './loose-frame.tsx'

export type Check = ReturnType<typeof useCheck>

/** One check under way: how it is done, its clip and numbers, and what came out. */
export function useCheck(camera: CameraProfile, what: Checked) {
  const host = useHost()
  const { ways } = guides[what]
  const [guide, setGuide] = useState(ways[0]!)
  const [texts, setTexts] = useState<CheckTexts>(startCheck)
  const [file, setFile] = useState<{ path: string; clip: LooseClip } | null>(null)
  const [frame, setFrame] = useState(0)
  const [rim, setRim] = useState<{ points: RimPoint[]; shrunk: number }>({ points: [], shrunk: 1 })
  const [tried, setTried] = useState(false)
  const [found, setFound] = useState<Found | null>(null)
  const opening = useAct()
  const act = useAct()

  const needsClip = guide.way !== 'view' && guide.way !== 'width'
  const widthPx = needsClip ? (file?.clip.widthPx ?? null) : camera.widthPx
  const { ask, focal, notes, problems } = checkRead(guide.way, texts, camera, { widthPx, shrunk: rim.shrunk })
  const say = (field: CheckField, text: string) => {
    setTexts(last => ({ ...last, [field]: text }))
    setFound(null)
  }
  const open = (path: string) =>
    opening.run(async options => {
      const clip = await host.call('checks.look', { path }, options)
      setFile({ path, clip })
      setFrame(0)
      setRim({ points: [], shrunk: 1 })
      setFound(null)
    })
  const choose = (next: Guide) => {
    setGuide(next)
    setFound(null)
    setTried(false)
  }
  const click = (at: RimPoint, shrunk: number) => {
    const points = [...(rim.points.length === 3 ? [] : rim.points), at]
    setRim({ points, shrunk })
    const circle = circleOf(points)
    if (circle) say('across', (2 * circle.radiusPx).toFixed(1))
  }
  const run = () => {
    setTried(true)
    if (needsClip && !file) return
    act.run(async options => {
      if (focal) setFound({ done: null, focal: focal() })
      else if (ask && file)
        setFound({ done: await host.call('checks.run', { path: file.path, ask }, options), focal: null })
    })
  }
  /** The camera with what was found. */
  const kept = () => {
    const { id: _, ...details } = camera
    const by: FoundBy = { way: guide.way, clip: needsClip ? (file?.clip.name ?? null) : null, day: today() }
    return {
      ...details,
      ...partOf(found!, by),
      ...(widthPx && camera.widthPx === null && file ? { widthPx, heightPx: file.clip.heightPx } : {}),
    }
  }
  const otherMode =
    what === 'focal' && file && camera.widthPx !== null && file.clip.widthPx !== camera.widthPx
      ? `This clip is ${file.clip.widthPx} px wide, the camera’s mode ${camera.widthPx}: a focal length belongs to one mode.`
      : null
  return {
    ...{ guide, choose, needsClip, widthPx, otherMode },
    ...{ file, open, opening, frame, setFrame, rim: rim.points, circle: circleOf(rim.points), click },
    ...{ texts, say, notes, problems, tried, ready: ask !== null || focal !== null },
    ...{ run, act, found, kept },
  }
}

const circleOf = ([a, b, c]: RimPoint[]) => (a && b && c ? circleFromRim(a, b, c).circle : null)
