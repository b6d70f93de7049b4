import { type RefObject, useEffect, useState } from 'react'

const usualPx = 16

/**
 * How much larger than usual the page's letters are: what is placed by hand must grow with the letters in it.
 *
 * @param piece whose size follows the letters', so that a change is seen
 */
export function useLetterScale(piece: RefObject<HTMLElement | null>): number {
  const [scale, setScale] = useState(1)
  useEffect(() => {
    if (!piece.current) return
    const watch = new ResizeObserver(() => {
      const { fontSize } = getComputedStyle(document.documentElement)
      setScale(Number.parseFloat(fontSize) / usualPx || 1)
    })
    watch.observe(piece.current)
    return () => watch.disconnect()
  }, [piece])
  return scale
}
