export type InLane = <T>(job: () => Promise<T>, lanes?: number) => Promise<T>

/**
 * Lets only so many jobs run at a time; the others wait for their turn, in order. A large one takes several lanes, all
 * there are at the most.
 */
export function createLanes(count: number): InLane {
  let free = count
  const waiting: { lanes: number; start: () => void }[] = []
  const startNext = () => {
    for (let next = waiting[0]; next && next.lanes <= free; next = waiting[0]) {
      waiting.shift()
      free -= next.lanes
      next.start()
    }
  }
  return async (job, lanes = 1) => {
    const taken = Math.min(lanes, count)
    await new Promise<void>(start => {
      waiting.push({ lanes: taken, start })
      startNext()
    })
    try {
      return await job()
    } finally {
      free += taken
      startNext()
    }
  }
}
