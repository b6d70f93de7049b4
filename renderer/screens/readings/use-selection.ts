import { useCallback, useEffect, useState } from 'react'
import { go } from '../../state/route.ts'

/** The open hit: at once in the page, a little later in the address, as a held arrow key passes many. */
export function useSelection(fromAddress: string | null) {
  const [selected, setSelected] = useState(fromAddress)
  useEffect(() => setSelected(fromAddress), [fromAddress])
  useEffect(() => {
    if (selected === fromAddress) return
    const later = setTimeout(() => go({ screen: 'readings', hitId: selected }, 'in place'), 250)
    return () => clearTimeout(later)
  }, [selected, fromAddress])
  return [selected, useCallback((hitId: string | null) => setSelected(hitId), [])] as const
}
