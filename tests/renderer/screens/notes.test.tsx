import { cleanup, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import { Notes } from '../../../renderer/screens/readings/notes.tsx'
import { onItsWay } from '../../../renderer/state/on-its-way.ts'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(cleanup)

it('hands notes over that are still being written when the page goes, and only those', async () => {
  const host = standInHost(manyOf({ sessions: 1, clips: 1, hits: 1 }))
  const [hit] = await host.call('hits.list', {})
  const { hitId } = hit!
  const shown = shownOn(host, <Notes hit={hit!} />)
  expect(onItsWay.calls()).toEqual([])
  const field = screen.getByLabelText('Notes')
  fireEvent.change(field, { target: { value: 'the third' } })
  fireEvent.change(field, { target: { value: 'the third drive' } })
  await waitFor(() =>
    expect(onItsWay.calls().flat()).toMatchObject([
      { name: 'hits.note', input: { hitId, notes: 'the third drive' } },
    ]),
  )
  await onItsWay.written()
  expect((await host.call('hits.list', {}))[0]!.notes).toBe('the third drive')
  shown.unmount()
  expect(onItsWay.calls()).toEqual([])
})
