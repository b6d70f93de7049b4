import { cleanup, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, expect, it } from 'vitest'
import { WatchedFolder } from '../../../renderer/screens/sessions/watched-folder.tsx'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'

afterEach(cleanup)

it('watches a folder that was chosen among those of the machine', async () => {
  const host = standInHost(manyOf({ sessions: 1, clips: 0, hits: 0 }), {
    'files.pick': () => ['/home/me/from the phone'],
  })
  shownOn(host, <WatchedFolder sessionId="session-0" />)
  fireEvent.click(await screen.findByRole('button', { name: 'Watch a folder…' }))
  fireEvent.click(screen.getByRole('button', { name: 'Choose the folder…' }))
  await waitFor(() =>
    expect((screen.getByLabelText(/Folder to watch/) as HTMLInputElement).value).toBe(
      '/home/me/from the phone',
    ),
  )
  fireEvent.click(screen.getByRole('button', { name: 'Watch' }))
  await waitFor(() =>
    expect(host.seen.find(call => call.name === 'watch.set')).toMatchObject({
      input: { sessionId: 'session-0', folder: '/home/me/from the phone' },
    }),
  )
})
