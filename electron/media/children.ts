import { type ChildProcess, type StdioOptions, spawn } from 'node:child_process'
import { WhorlError } from '../../core/contract/problem.ts'

/**
 * How a program ended. `complaint` is the end of what it said on standard error; `broke` says that it failed
 * itself, not at what it was given: it could not be started, or was ended by a signal that was not ours.
 */
export type Ending = { ok: boolean; broke: boolean; complaint: string }
export type Running = { child: ChildProcess; ended: Promise<Ending>; stop(): void }
export type StartOptions = {
  signal?: AbortSignal
  stdio?: StdioOptions
  /** Looks at each line of standard error first; true means "mine", and it is no complaint. */
  onLine?: (line: string) => boolean
}

/** What a program that decodes finds in its environment. */
export const env = {
  ...process.env,
  // The registry's ffprobe is linked statically and crashes when it loads the system's tables of character sets,
  // as it does for the station name in an MPEG stream; it reads the name as it is when there are none.
  GCONV_PATH: '/nonexistent',
  // A picture's memory is used for the next one instead of being given back to the system and got again (glibc,
  // mallopt): that is a twentieth of the time of a window.
  MALLOC_MMAP_THRESHOLD_: String(32 * 1024 * 1024),
  MALLOC_TRIM_THRESHOLD_: String(1024 * 1024 * 1024),
}

const live = new Set<ChildProcess>()
const stopAll = () => {
  for (const child of live) child.kill('SIGKILL')
}

/**
 * The programs that one Media has running. None outlives it: they are killed on abort, on `close`, and when
 * this process exits. (When this process is itself killed, their next write meets a closed pipe and they end.)
 */
export class Children {
  #own = new Set<ChildProcess>()
  #closed = false

  /** Throws `cancelled` when the job was stopped or everything is closed. */
  check(signal: AbortSignal | undefined, what: string): void {
    if (this.#closed || signal?.aborted) throw new WhorlError('cancelled', { what })
  }

  /** Starts a program without a shell. A program that cannot be started ends with a complaint, never throws. */
  start(program: string, args: readonly string[], options: StartOptions = {}): Running {
    const stdio = options.stdio ?? ['ignore', 'pipe', 'pipe']
    return this.adopt(spawn(program, args, { stdio, env, windowsHide: true }), options)
  }

  /** Takes over a child that was just started elsewhere. */
  adopt(child: ChildProcess, { signal, onLine }: StartOptions = {}): Running {
    let stopped = false
    const stop = () => {
      stopped = true
      child.kill('SIGKILL')
    }
    if (live.size === 0) process.once('exit', stopAll)
    live.add(child)
    this.#own.add(child)
    signal?.addEventListener('abort', stop, { once: true })
    if (this.#closed || signal?.aborted) stop()

    const complaints: string[] = []
    const lines = splitLines(line => {
      if (!onLine?.(line) && complaints.push(line.slice(0, 300)) > 8) complaints.shift()
    })
    child.stderr?.setEncoding('utf8').on('data', lines.add)

    const ended = new Promise<Ending>(resolve => {
      const end = (ok: boolean, failure?: string) => {
        live.delete(child)
        if (live.size === 0) process.removeListener('exit', stopAll)
        this.#own.delete(child)
        signal?.removeEventListener('abort', stop)
        lines.flush()
        if (failure) complaints.push(failure)
        resolve({ ok, broke: failure !== undefined, complaint: complaints.join('; ') })
      }
      child.once('error', error => end(false, error.message))
      child.once('close', (code, signal) =>
        end(code === 0, signal && !stopped ? `it was ended by ${signal}` : undefined),
      )
    })
    return { child, ended, stop }
  }

  /** Kills all and waits until they are gone. */
  async close(): Promise<void> {
    this.#closed = true
    await Promise.all(
      [...this.#own].map(child => {
        const gone = new Promise(resolve => child.once('close', resolve).once('error', resolve))
        child.kill('SIGKILL')
        return gone
      }),
    )
  }
}

/** Cuts text that comes in pieces into lines. */
function splitLines(take: (line: string) => void): { add: (text: string) => void; flush: () => void } {
  let rest = ''
  return {
    add(text) {
      const lines = (rest + text).split(/\r?\n|\r/)
      rest = lines.pop() ?? ''
      for (const line of lines) if (line !== '') take(line)
    },
    flush() {
      if (rest !== '') take(rest)
      rest = ''
    },
  }
}
