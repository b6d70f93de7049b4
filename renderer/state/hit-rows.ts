import { useCallback, useEffect, useRef, useState } from 'react'
import type { HitPage } from '../../core/contract/calls.ts'
import type { ListedHit } from '../../core/contract/workspace.ts'
import { problemShown, useHost } from '../host/host.ts'
import { type Answer, type Asking, useAsked } from './answers.ts'

/** `isWhole` is false while further pages are on their way. */
export type HitRows = Omit<Answer<ListedHit[]>, 'progress'> & { isWhole: boolean }

const [fewest, most] = [1000, 20_000]

/** Every hit of the workspace, the latest sessions first: shown page by page, each as long as all before it. */
export function useHitRows(): HitRows {
  const host = useHost()
  const soFar = useRef<ListedHit[]>([])
  const asking = useCallback<Asking<ListedHit[]>>(
    async (signal, show) => {
      soFar.current = []
      for (let after: string | null = null; ; ) {
        const least = Math.min(most, Math.max(fewest, soFar.current.length))
        const { hits, next }: HitPage = await host.call('hits.page', { after, least }, { signal })
        soFar.current = [...soFar.current, ...hits]
        if (next === null) return soFar.current
        show(soFar.current)
        after = next
      }
    },
    [host],
  )
  return useKeptRows(asking, row => {
    soFar.current = withRow(soFar.current, row)
  })
}

/** The hits of one session. */
export function useSessionHits(sessionId: string): HitRows {
  const host = useHost()
  return useKeptRows(
    useCallback(signal => host.call('hits.list', { sessionId }, { signal }), [host, sessionId]),
  )
}

/** The list is read again when many hits change; a change of one fetches that one alone, as the list may be long. */
function useKeptRows(asking: Asking<ListedHit[]>, onRow: (row: ListedHit) => void = () => {}): HitRows {
  const host = useHost()
  const { value, problem, isWhole, again } = useAsked(asking, ['clips', 'sessions'])
  const [rows, setRows] = useState<ListedHit[] | null>(null)
  const take = useRef(onRow)
  take.current = onRow
  useEffect(() => setRows(value), [value])

  useEffect(
    () =>
      host.on(event => {
        if (event.kind !== 'changed' || event.what !== 'hits') return
        if (event.id === null) return again()
        host.call('hits.open', { hitId: event.id }).then(
          ({ row }) => {
            take.current(row)
            setRows(last => {
              if (!last?.some(each => each.hitId === row.hitId)) {
                again()
                return last
              }
              return withRow(last, row)
            })
          },
          thrown => problemShown(thrown).code === 'not-in-workspace' && again(),
        )
      }),
    [host, again],
  )
  return { value: rows, problem, isWhole, again }
}

const withRow = (rows: ListedHit[], row: ListedHit): ListedHit[] =>
  rows.map(each => (each.hitId === row.hitId ? row : each))
