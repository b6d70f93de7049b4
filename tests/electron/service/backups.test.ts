import { describe, expect, it, vi } from 'vitest'
import { openService } from './open-service.ts'

describe('backups of the open workspace', () => {
  it('are made in the background, listed, gone back to, and the page hears that everything changed', async () => {
    const { call, session, events } = openService()
    const { id } = await session()
    const { backups } = await call('backups.make', {})
    expect(backups).toHaveLength(1)
    await call('sessions.remove', { sessionId: id })
    events.length = 0
    const after = await call('backups.restore', { name: backups[0]!.name })
    expect((await call('sessions.list', {})).map(each => each.id)).toEqual([id])
    expect(after.backups).toHaveLength(1)
    for (const what of ['sessions', 'clips', 'hits', 'paddles', 'studies', 'ratings', 'backups'])
      expect(events).toContainEqual({ kind: 'changed', what, id: null })
  })

  it('are gone back to by the name of one that is listed alone', async () => {
    const { call, session } = openService()
    await session()
    await call('backups.make', {})
    for (const name of ['../workspace.sqlite', '/etc/passwd', 'none', ''])
      await expect(call('backups.restore', { name })).rejects.toMatchObject({ code: 'not-in-workspace' })
    expect(await call('sessions.list', {})).toHaveLength(1)
  })

  it('are made by themselves where none was made today, by the program that stays open', async () => {
    const { service, workspace, session, parts } = openService()
    await session()
    parts.backups.keepUp()
    await vi.waitFor(
      async () => {
        const { backups: made } = await service['backups.list'](
          {},
          { signal: new AbortController().signal, progress: () => {} },
        )
        expect(made).toHaveLength(1)
      },
      { timeout: 60_000, interval: 50 },
    )
    expect(workspace.sessions()).toHaveLength(1)
  })
})
