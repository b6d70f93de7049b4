import { act, cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { App } from '../../renderer/app.tsx'
import { useKeyGroups } from '../../renderer/state/keys.ts'
import { startTheme, useTheme } from '../../renderer/state/theme.ts'
import { shownOn } from './shown.tsx'
import { manyOf } from './stand-in-data.ts'
import { standInHost } from './stand-in-host.ts'

const shown = () => shownOn(standInHost(manyOf({ sessions: 2, clips: 4, hits: 8 })), <App />)
const current = () => screen.getByRole('navigation').querySelector('[aria-current]')?.textContent

beforeEach(() => {
  location.hash = ''
})
afterEach(() => {
  cleanup()
  useKeyGroups.setState({ helpOpen: false })
})

describe('the frame', () => {
  it('follows the address and says where one is', async () => {
    shown()
    await screen.findByRole('heading', { name: 'Sessions' })
    expect(current()).toBe('Sessions')
    act(() => location.assign('#/database'))
    await screen.findByRole('heading', { name: 'Database' })
    expect(current()).toBe('Database')
    expect(document.title).toBe('Database · Whorl')
  })

  it('goes from screen to screen by keys', async () => {
    shown()
    await screen.findByRole('heading', { name: 'Sessions' })
    fireEvent.keyDown(document.body, { key: 'R', shiftKey: true })
    await screen.findByRole('heading', { name: 'Readings' })
    fireEvent.keyDown(document.body, { key: 'E', shiftKey: true })
    await screen.findByRole('heading', { name: 'Database' })
    fireEvent.keyDown(document.body, { key: 'S', shiftKey: true })
    await screen.findByRole('heading', { name: 'Sessions' })
  })

  it('shows every key in force on demand, those of the screen before those of the frame', async () => {
    shown()
    await screen.findByRole('heading', { name: 'Sessions' })
    fireEvent.keyDown(document.body, { key: '?', shiftKey: true })
    const help = await screen.findByRole('dialog', { name: 'Keys' })
    expect(
      within(help)
        .getAllByRole('heading', { level: 3 })
        .map(each => each.textContent),
    ).toEqual(['Sessions', 'Everywhere'])
    expect(within(help).getByText('New session')).toBeTruthy()
    fireEvent.keyDown(document.body, { key: '?', shiftKey: true })
    await waitFor(() => expect(screen.queryByRole('dialog', { name: 'Keys' })).toBeNull())
  })
})

describe('the theme', () => {
  it('follows the system until it is turned, and then is kept', () => {
    localStorage.clear()
    startTheme()
    const system = document.documentElement.dataset.theme
    useTheme.getState().turn()
    expect(document.documentElement.dataset.theme).not.toBe(system)
    useTheme.setState({ theme: 'light' })
    startTheme()
    expect(document.documentElement.dataset.theme).toBe(system === 'light' ? 'dark' : 'light')
  })
})
