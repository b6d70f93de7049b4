import { childrenProcessorSeconds } from './children.ts'

export type WorkLimits = {
  /** Processor time of this process and of all that it starts. */
  processorSeconds: number
  /** Seconds on end in which neither did anything: it waits for what never comes. */
  idleSeconds: number
}

export type Worked<T> = { outcome: T | 'works on and on' | 'hangs'; processorSeconds: number }

/** A host that looks after its decoders uses less than this in a second while nothing happens. */
const idleHostSeconds = 0.1

/**
 * Waits for a job, no longer than its limits. They are of work, not of time on the clock: a machine that does
 * other things at once makes no job too slow. All work of this process counts: one job at a time.
 */
export async function withinWork<T>(job: Promise<T>, limits: WorkLimits): Promise<Worked<T>> {
  const used = () => {
    const { user, system } = process.cpuUsage()
    return { host: (user + system) / 1e6, children: childrenProcessorSeconds() }
  }
  const began = used()
  const sinceBegin = (now = used()) => now.host - began.host + (now.children - began.children || 0)
  let last = began
  let idle = 0
  let timer: NodeJS.Timeout | undefined
  const tooLong = new Promise<'works on and on' | 'hangs'>(resolve => {
    timer = setInterval(() => {
      const now = used()
      const rests = now.children === last.children && now.host - last.host < idleHostSeconds
      idle = rests ? idle + 1 : 0
      last = now
      if (sinceBegin(now) > limits.processorSeconds) resolve('works on and on')
      if (idle > limits.idleSeconds) resolve('hangs')
    }, 1000)
  })
  const outcome = await Promise.race([job, tooLong]).finally(() => clearInterval(timer))
  return { outcome, processorSeconds: sinceBegin() }
}
