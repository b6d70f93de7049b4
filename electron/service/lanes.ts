/** Lets only so many jobs run at a time; the others wait for their turn, in order. */
export function createLanes(count: number): <T>(job: () => Promise<T>) => Promise<T> {
  let free = count
  const waiting: (() => void)[] = []
  return async job => {
    if (free > 0) free--
    else await new Promise<void>(resolve => waiting.push(resolve))
    try {
      return await job()
    } finally {
      const next = waiting.shift()
      if (next) next()
      else free++
    }
  }
}
