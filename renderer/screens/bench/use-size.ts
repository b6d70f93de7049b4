import { type RefObject, useLayoutEffect, useState } from 'react'
import type { Size } from './picture/view.ts'

/** The size of an element in screen pixels, followed as it changes. */
export function useSize(element: RefObject<Element | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 })
  useLayoutEffect(() => {
    const watched = element.current
    if (!watched) return
    const measure = () => {
      const { width, height } = watched.getBoundingClientRect()
      setSize(last => (last.width === width && last.height === height ? last : { width, height }))
    }
    measure()
    const watch = new ResizeObserver(measure)
    watch.observe(watched)
    return () => watch.disconnect()
  }, [element])
  return size
}
