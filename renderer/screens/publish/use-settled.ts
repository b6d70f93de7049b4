import { useEffect, useState } from 'react'

const restMilliseconds = 150

/** A value once it has stayed the same for a moment: dragging a setting does not ask for every step between. */
export function useSettled<T>(value: T): T {
  const [settled, setSettled] = useState(value)
  const now = JSON.stringify(value)
  useEffect(() => {
    const waiting = setTimeout(() => setSettled(JSON.parse(now) as T), restMilliseconds)
    return () => clearTimeout(waiting)
  }, [now])
  return settled
}
