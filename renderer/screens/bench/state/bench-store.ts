import { createStore } from 'zustand'
import type { Edit, HitMarks } from '../../../../core/contract/bench.ts'
import type { Host } from '../../../../core/contract/calls.ts'
import type { BenchHit, ClipRecord } from '../../../../core/contract/workspace.ts'
import { applyEdit } from '../../../../core/marking/apply-edit.ts'
import { captureFpsOf } from '../../../../core/marking/capture-fps-of.ts'
import { problemShown } from '../../../host/host.ts'
import { SaveQueue } from '../../../state/save-queue.ts'
import type { BenchSource, BenchState, Step } from './bench-state.ts'
import { type LiveReading, type LiveSource, liveReading } from './live-reading.ts'
import { proposalsIn } from './proposing.ts'
import { realTimes } from './real-times.ts'
import { surfaceLive } from './surface-live.ts'

type Later = (work: () => void) => void
/** After the next picture is on the screen; a hidden window has no next picture, and does not wait for one. */
const afterPaint: Later = work => {
  if (document.hidden) setTimeout(work)
  else requestAnimationFrame(() => setTimeout(work))
}

export type BenchStore = ReturnType<typeof benchStore>

/**
 * One hit on the bench. Every step of work shows at once and is sent to the host behind it, in order; a
 * step that the host refuses is taken back and told where it was made.
 */
export function benchStore(host: Host, source: BenchSource, later: Later = afterPaint) {
  const hitId = source.hit.row.hitId
  return createStore<BenchState>()((set, get) => {
    const queue = new SaveQueue<Step, BenchHit>(
      host,
      ({ save }) =>
        typeof save === 'string'
          ? { name: `hits.${save}`, input: { hitId } }
          : { name: 'hits.edit', input: { hitId, edit: save } },
      {
        saved: hit => {
          take(hit)
        },
        failed: (thrown, step) => {
          set({ problem: { place: step.place, problem: problemShown(thrown) } })
          show(get().hit.marks)
        },
      },
    )

    /** The host's word on the hit, with the steps on top that it does not know yet. */
    function take(hit: BenchHit) {
      const marks = withSteps(hit.marks, queue.waiting)
      set({ hit })
      show(marks)
      // A reading from the surface is the host's: it may be new under the same marks.
      if (marks.readFrom === 'surface') readLater()
    }

    /** Shows other marks; the same ones keep their identity, so that nothing is drawn or fitted again. */
    function show(marks: HitMarks) {
      const waiting = queue.waiting.length > 0
      const { hit } = get()
      set({ saving: waiting, canUndo: hit.canUndo || waiting, canRedo: hit.canRedo && !waiting })
      if (JSON.stringify(marks) === JSON.stringify(get().marks)) return
      set({ marks })
      readLater()
    }

    /** The marks and the next frame are shown first; the fit follows, once for all that came meanwhile. */
    let reading = false
    function readLater() {
      if (reading) return
      reading = true
      later(() => {
        reading = false
        set({ live: liveOf(get()) })
        if (get().proposing) set({ proposals: proposalsIn(get()) })
      })
    }

    function clipFacts(clip: ClipRecord) {
      const captureFps = clip.probe && captureFpsOf(clip.probe, source.session.camera)
      return { clip, captureFps, timesSeconds: realTimes(clip.probe, source.timestampsSeconds, captureFps) }
    }

    const { hit } = source
    const facts = clipFacts(source.clip)
    return {
      ...source,
      ...facts,
      marks: hit.marks,
      live: liveOf({ ...source, ...facts, marks: hit.marks }),
      canUndo: hit.canUndo,
      canRedo: hit.canRedo,
      saving: false,
      problem: null,
      frame: hit.marks.window.fromFrame,
      direction: 1,
      playing: false,
      wholeClip: false,
      mode: hit.marks.outlines.length === 0 ? 'outline' : 'mark',
      rim: hit.marks.outlines.length === 0 ? { points: [], near: null } : null,
      dragged: null,
      mark: hit.marks.marks[0]?.id ?? '',
      cursor: null,
      cursorBearingDeg: null,
      overlaid: null,
      proposing: false,
      proposals: [],
      turnedBack: showsTurnedBack(hit.marks),

      set,
      edit: (place, ...edits) => {
        try {
          const marks = edits.reduce((before, edit) => applyEdit(before, edit).hit, get().marks)
          for (const edit of edits) queue.push({ place, save: edit })
          set({ problem: null })
          show(marks)
          return true
        } catch (thrown) {
          set({ problem: { place, problem: problemShown(thrown) } })
          return false
        }
      },
      refresh: take,
      undo: () => queue.push({ place: 'reading', save: 'undo' }),
      redo: () => queue.push({ place: 'reading', save: 'redo' }),
      setClip: clip => {
        const changed = clipFacts(clip)
        set({ ...changed, live: liveOf({ ...get(), ...changed }) })
      },
    }
  })
}

/** Of a hit that was read by itself and has no marks, the balls turned back say more than an empty plot. */
export const showsTurnedBack = ({ readFrom, sightings }: HitMarks): boolean =>
  readFrom === 'surface' && sightings.length === 0

const liveOf = (source: LiveSource & { hit: BenchHit }): LiveReading =>
  source.marks.readFrom === 'surface' ? surfaceLive(source, source.hit) : liveReading(source)

/** The host's marks with the edits on top that it has not yet answered. */
function withSteps(marks: HitMarks, waiting: readonly Step[]): HitMarks {
  const edits = waiting.map(step => step.save).filter((save): save is Edit => typeof save !== 'string')
  return edits.reduce((before, edit) => {
    try {
      return applyEdit(before, edit).hit
    } catch {
      // An undo before it took its ground away: the host will refuse it, and that is told then.
      return before
    }
  }, marks)
}
