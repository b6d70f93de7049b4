import { median } from '../../../core/numerics/median.ts'

/**
 * Ours and a plain tool at the same work: seconds each, and their ratio. By the wall clock the middle of all and the
 * middle of their ratios; by the processor's time the least of each, for what else a machine does only ever adds to it.
 */
export type Sides = { ours: number; plain: number; ratio: number }
export type Line = {
  name: string
  /** What is done, and by which plain tool beside. */
  what: string
  beside: string
  /** Measured in this process by its own processor time, and steady on a busy machine: it goes into CI. */
  isQuick?: boolean
  measure(): Promise<Sides>
}
type Work = () => unknown
type How = {
  /** `processor` is what this process took of the processors; `wall` what a person waits. */
  clock: 'processor' | 'wall'
  repeats: number
  /** Work that is over sooner is done many times in a row. */
  atLeastSeconds?: number
}

const warmSeconds = 0.4
const clocks = {
  wall: () => performance.now() / 1000,
  processor: () => {
    const { user, system } = process.cpuUsage()
    return (user + system) / 1e6
  },
}

/** Takes both by turns, each first as often as the other, so that what else the machine does meets both. */
export async function sideBySide(ours: Work, plain: Work, how: How): Promise<Sides> {
  const clock = clocks[how.clock]
  const timed = async (work: Work, times: number) => {
    const from = clock()
    for (let n = 0; n < times; n++) {
      const doing = work()
      if (doing instanceof Promise) await doing
    }
    return (clock() - from) / times
  }
  // The runtime's compiler has seen the work often enough, before it counts.
  const timesOf = async (work: Work) => {
    if (how.atLeastSeconds === undefined) return 1
    let [times, took] = [1, 0]
    for (; took < warmSeconds; times *= 2) took = times * (await timed(work, times))
    return Math.ceil((how.atLeastSeconds * times) / 2 / took)
  }
  const [oursTimes, plainTimes] = [await timesOf(ours), await timesOf(plain)]
  const taken = { ours: [] as number[], plain: [] as number[] }
  for (let repeat = 0; repeat < how.repeats; repeat++) {
    if (repeat % 2 === 0) taken.ours.push(await timed(ours, oursTimes))
    taken.plain.push(await timed(plain, plainTimes))
    if (repeat % 2 === 1) taken.ours.push(await timed(ours, oursTimes))
  }
  if (how.clock === 'processor') {
    const [ours, plain] = [Math.min(...taken.ours), Math.min(...taken.plain)]
    return { ours, plain, ratio: ours / plain }
  }
  return {
    ours: median(taken.ours),
    plain: median(taken.plain),
    ratio: median(taken.ours.map((each, i) => each / taken.plain[i]!)),
  }
}
