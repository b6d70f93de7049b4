import { readdirSync, statSync } from 'node:fs'
import { extname, join } from 'node:path'
import type { WatchState } from '../../core/contract/queue.ts'
import type { ClipRecord } from '../../core/contract/workspace.ts'
import type { Workspace } from '../store/workspace.ts'
import type { Bus } from './bus.ts'
import { clipEndings } from './files.ts'
import type { Prober } from './prober.ts'
import type { ReadQueue } from './read-queue.ts'

/** Brings the clips that arrive in a folder into a session and has them read. */
export type Watcher = {
  /** Watches from now on: what lies there already is no news. Null ends it. */
  watch(sessionId: string, folder: string | null): void
  state(sessionId: string): WatchState
  /** Goes on with the folders that were watched when the program ended. */
  goOn(): void
  close(): Promise<void>
}

type Needs = {
  workspace: Workspace
  prober: Prober
  queue: ReadQueue
  bus: Bus
  /** Between two looks; a file must be alike in both before it is opened. */
  everyMilliseconds?: number
}
type Looking = {
  problem: string | null
  /** By name: size and time at the last look, and those at which it did not open. */
  seen: Map<string, { print: string; refused: string | null }>
  /** By name: size and time of what came in since the program was started. */
  taken: Map<string, string>
  arrived: string[]
}

const usualPause = 2000

export function createWatcher({
  workspace,
  prober,
  queue,
  bus,
  everyMilliseconds = usualPause,
}: Needs): Watcher {
  const looking = new Map<string, Looking>()
  let timer: NodeJS.Timeout | null = null
  let round: Promise<void> = Promise.resolve()
  let closed = false

  const of = (sessionId: string): Looking => {
    const there = looking.get(sessionId) ?? { problem: null, seen: new Map(), taken: new Map(), arrived: [] }
    looking.set(sessionId, there)
    return there
  }
  const changed = (sessionId: string) => bus.say({ kind: 'changed', what: 'queue', id: sessionId })

  async function lookAt(sessionId: string, folder: string, known: string[]): Promise<void> {
    const own = of(sessionId)
    const before = JSON.stringify(stateOf(sessionId, folder))
    const { prints, problem } = printsIn(folder)
    own.problem = problem
    for (const name of own.seen.keys()) if (!prints.has(name)) own.seen.delete(name)
    for (const [name, print] of prints) {
      if (closed || (known.includes(name) && (own.taken.get(name) ?? print) === print)) {
        own.seen.delete(name)
        continue
      }
      const last = own.seen.get(name)
      own.seen.set(name, { print, refused: last?.refused ?? null })
      if (last?.print === print && last.refused !== print) await take(sessionId, folder, name, print)
    }
    if (JSON.stringify(stateOf(sessionId, folder)) !== before) changed(sessionId)
  }

  /**
   * A steady file that is whole is a clip of the session; one that is not may still be growing, and waits. What grew on
   * or was replaced after it came in is taken anew, unless somebody has worked on it: then it says so itself.
   */
  async function take(sessionId: string, folder: string, name: string, print: string): Promise<void> {
    const own = of(sessionId)
    const path = join(folder, name)
    let there = workspace.clips(sessionId).find(clip => clip.path === path)
    if (there && own.taken.has(name)) {
      if (!isUntouched(there.id)) return done()
      workspace.removeClip(there.id)
      there = undefined
    }
    const { id } =
      there ?? workspace.addClip(sessionId, { path, probe: null, problem: null, timestampsSeconds: [] })
    const clip = await prober.complete(id)
    if (!isWhole(clip)) {
      if (!there) workspace.removeClip(clip.id)
      own.seen.set(name, { print, refused: print })
      return
    }
    // A kill between the two has it put once more, which changes nothing.
    queue.put([clip.id])
    done()
    bus.say({ kind: 'changed', what: 'clips', id: clip.id })

    function done() {
      const watched = workspace.watchedFolders().find(one => one.sessionId === sessionId)
      if (watched) workspace.watchFolder(sessionId, { folder, known: [...new Set([...watched.known, name])] })
      own.seen.delete(name)
      own.taken.set(name, print)
      own.arrived = [...own.arrived.filter(each => each !== name), name]
    }
  }

  const isUntouched = (clipId: string): boolean =>
    workspace
      .hits({ clipId })
      .every(
        ({ provenance, verdict, setUpId, notes }) =>
          provenance === 'untouched' && verdict.state === 'open' && setUpId === null && notes === '',
      )

  const stateOf = (sessionId: string, folder: string | null): WatchState => {
    const { problem, seen, arrived } = of(sessionId)
    return { folder, problem, waiting: [...seen.keys()], arrived: [...arrived] }
  }

  function goOn(): void {
    if (timer || closed || workspace.watchedFolders().length === 0) return
    timer = setTimeout(() => {
      round = (async () => {
        for (const { sessionId, folder, known } of workspace.watchedFolders())
          await lookAt(sessionId, folder, known).catch(() => {})
        timer = null
        goOn()
      })()
    }, everyMilliseconds)
    timer.unref()
  }

  return {
    watch(sessionId, folder) {
      looking.delete(sessionId)
      const names = folder === null ? [] : [...printsIn(folder).prints.keys()]
      workspace.watchFolder(sessionId, folder === null ? null : { folder, known: names })
      changed(sessionId)
      goOn()
    },
    state: sessionId =>
      stateOf(sessionId, workspace.watchedFolders().find(one => one.sessionId === sessionId)?.folder ?? null),
    goOn,
    async close() {
      closed = true
      if (timer) clearTimeout(timer)
      await round
    },
  }
}

/** A file whose index promises more frames than are there opens, and is not whole. */
const isWhole = ({ probe, problem }: ClipRecord): boolean =>
  problem === null && probe !== null && !probe.warnings.some(({ code }) => code === 'truncated')

/** Size and time of every clip in a folder; hidden files are a sync's own half-written ones. */
function printsIn(folder: string): { prints: Map<string, string>; problem: string | null } {
  const prints = new Map<string, string>()
  try {
    for (const name of readdirSync(folder)) {
      if (name.startsWith('.') || !clipEndings.includes(extname(name).toLowerCase())) continue
      const stat = statSync(join(folder, name), { throwIfNoEntry: false })
      if (stat?.isFile()) prints.set(name, `${stat.size} ${stat.mtimeMs}`)
    }
    return { prints, problem: null }
  } catch (error) {
    const gone = (error as NodeJS.ErrnoException).code === 'ENOENT'
    return { prints, problem: gone ? 'The folder is not there now.' : 'The folder cannot be read now.' }
  }
}
