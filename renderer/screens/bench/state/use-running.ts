import { useEffect } from 'react'
import { runOn } from './going.ts'
import { useBench, useBenchStore } from './use-bench.ts'

/**
 * Slow enough to see every frame, and so that no clip, however it flickers under lamps, flashes more than three
 * times in a second: a flash is a change and its opposite, and five changes hold two of them (WCAG 2.2, 2.3.1).
 */
const betweenFramesMilliseconds = 200

/** While the bench runs, one frame after the other; a late one makes the next later, never sooner. */
export function useRunning(): void {
  const store = useBenchStore()
  const playing = useBench(state => state.playing)
  useEffect(() => {
    if (!playing) return
    let timer = setTimeout(next, betweenFramesMilliseconds)
    function next() {
      runOn(store)
      timer = setTimeout(next, betweenFramesMilliseconds)
    }
    return () => clearTimeout(timer)
  }, [store, playing])
}
