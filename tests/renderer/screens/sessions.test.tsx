import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import { WhorlError } from '../../../core/contract/problem.ts'
import { HostProblem } from '../../../renderer/host/host.ts'
import { Sessions } from '../../../renderer/screens/sessions/sessions.tsx'
import { useOpenClip } from '../../../renderer/state/open-clip.ts'
import { sampleReading } from '../../electron/store/sample-reading.ts'
import { shownOn } from '../shown.tsx'
import { manyOf } from '../stand-in-data.ts'
import { type StandIn, standInHost } from '../stand-in-host.ts'

afterEach(() => {
  cleanup()
  useOpenClip.setState({ clipId: null })
  location.hash = ''
})
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }))
const empty = () => manyOf({ sessions: 0, clips: 0, hits: 0 })
const some = () => manyOf({ sessions: 3, clips: 14, hits: 40 })
const filesOf = (...names: string[]) => ({
  dataTransfer: { types: ['Files'], files: names.map(name => new File(['x'], name)) },
})

describe('an empty workspace', () => {
  it('shows two doors, and one of them fills it with the demo', async () => {
    const host = standInHost(empty(), { 'demo.fill': () => ({ sessionId: 'demo' }) })
    shownOn(host, <Sessions sessionId={null} />)
    await screen.findByRole('heading', { name: 'Add clips' })
    press(/with the demo/)
    await waitFor(() => expect(location.hash).toBe('#/sessions/demo'))
  })

  it('keeps dropped clips until their session is made, then adds them', async () => {
    const host = standInHost(empty())
    const { container } = shownOn(host, <Sessions sessionId={null} />)
    await screen.findByRole('heading', { name: 'Add clips' })
    fireEvent.drop(container.querySelector('.drop-area')!, filesOf('a.mov', 'b.mov'))
    expect(screen.getByText(/2\sclips will go into this session/)).toBeTruthy()
    fireEvent.change(screen.getByLabelText('Place'), { target: { value: 'Workshop wall' } })
    fireEvent.change(screen.getByLabelText('Exposure'), { target: { value: '1/2000' } })
    press('Keep session')
    await waitFor(() => expect(host.data.clips).toHaveLength(2))
    expect(host.data.clips.map(clip => clip.path)).toEqual(['/uploaded/a.mov', '/uploaded/b.mov'])
    expect(host.data.sessions[0]).toMatchObject({
      place: 'Workshop wall',
      camera: { exposureSeconds: 0.0005 },
    })
    expect(location.hash).toBe(`#/sessions/${host.data.sessions[0]!.id}`)
  })

  it('does not keep a session with a field that it cannot read, and says which', async () => {
    const host = standInHost(empty())
    shownOn(host, <Sessions sessionId={null} />)
    await screen.findByRole('heading', { name: 'Add clips' })
    fireEvent.keyDown(document.body, { key: 'n' })
    press('Choose clips…')
    fireEvent.click(await screen.findByLabelText(/new-1\.mov/))
    press(/Choose 1\sclip$/)
    fireEvent.change(screen.getByLabelText('Exposure'), { target: { value: 'quick' } })
    press('Keep session')
    expect(screen.getByLabelText('Exposure').getAttribute('aria-invalid')).toBe('true')
    expect(screen.getByText(/A time as 1\/2000/)).toBeTruthy()
    expect(host.seen.some(call => call.name === 'sessions.create')).toBe(false)
  })
})

describe('a session', () => {
  it('opens in place by its address to its clips', async () => {
    const host = standInHost(some())
    shownOn(host, <Sessions sessionId="session-0" />)
    const own = host.data.clips.filter(clip => clip.sessionId === 'session-0')
    expect(own.length).toBeGreaterThan(2)
    for (const clip of own) expect(await screen.findByText(clip.name)).toBeTruthy()
    const line = screen.getAllByRole('link').find(link => link.getAttribute('aria-expanded') === 'true')
    expect(line?.getAttribute('href')).toBe('#/sessions')
  })

  it('takes clips that are dropped on the page', async () => {
    const host = standInHost(some())
    const { container } = shownOn(host, <Sessions sessionId="session-1" />)
    await screen.findByText('Add clips…')
    fireEvent.drop(container.querySelector('.drop-area')!, filesOf('late.mov'))
    expect(await screen.findByText('late.mov')).toBeTruthy()
    expect(host.seen.find(call => call.name === 'clips.add')?.input).toEqual({
      sessionId: 'session-1',
      paths: ['/uploaded/late.mov'],
    })
  })

  it('says beside the clips what went wrong with adding, and lets it be dismissed', async () => {
    const host = standInHost(some(), {
      'clips.add': () => {
        throw new HostProblem(new WhorlError('disk-full', { path: '/w.sqlite' }).toProblem())
      },
    })
    const { container } = shownOn(host, <Sessions sessionId="session-1" />)
    await screen.findByText('Add clips…')
    fireEvent.drop(container.querySelector('.drop-area')!, filesOf('late.mov'))
    expect((await screen.findByRole('alert')).textContent).toContain('no room left')
    press('Dismiss')
    expect(screen.queryByRole('alert')).toBeNull()
  })

  it('is removed only after it was asked once more', async () => {
    const host = standInHost(some())
    shownOn(host, <Sessions sessionId="session-2" />)
    press((await screen.findByText('Remove session')).textContent!)
    expect(screen.getByText(/leave the workspace/)).toBeTruthy()
    expect(host.data.sessions).toHaveLength(3)
    press('Remove')
    await waitFor(() => expect(host.data.sessions).toHaveLength(2))
  })
})

describe('a clip', () => {
  const unknownRate = (host: StandIn) => host.data.clips.find(clip => clip.probe?.capture.fps === null)!
  const clipOf = async (name: string) => {
    const line = await screen.findByText(name)
    return line.closest('li')!
  }

  it('whose capture rate is unknown asks for it in its row', async () => {
    const host = standInHost(some())
    const { name, sessionId } = unknownRate(host)
    shownOn(host, <Sessions sessionId={sessionId} />)
    const clip = await clipOf(name)
    fireEvent.change(within(clip).getByLabelText(/Capture rate of/), { target: { value: '119.88' } })
    fireEvent.click(within(clip).getByText('Keep'))
    await waitFor(() => expect(within(clip).queryByLabelText(/Capture rate of/)).toBeNull())
    expect(clip.textContent).toContain('119.88')
    expect(clip.textContent).toContain('as you said')
  })

  it('offers the rate of the session’s camera', async () => {
    const host = standInHost(some())
    const { id, name, sessionId } = unknownRate(host)
    shownOn(host, <Sessions sessionId={sessionId} />)
    fireEvent.click(within(await clipOf(name)).getByText(/as the session’s camera/))
    await waitFor(() =>
      expect(host.seen.find(call => call.name === 'clips.setCaptureFps')?.input).toEqual({
        clipId: id,
        captureFps: 240,
      }),
    )
  })

  it('that is not where it was is shown where it went', async () => {
    const host = standInHost(some())
    const gone = host.data.clips.find(clip => clip.problem !== null)!
    shownOn(host, <Sessions sessionId={gone.sessionId} />)
    const clip = await clipOf(gone.name)
    expect(within(clip).getByRole('alert').textContent).toContain('There is no file at')
    fireEvent.click(within(clip).getByText('Show where it went…'))
    fireEvent.click(await within(clip).findByLabelText(/new-2\.mov/))
    fireEvent.click(within(clip).getByText('This is it'))
    await waitFor(() =>
      expect(host.seen.find(call => call.name === 'clips.locate')?.input).toEqual({
        clipId: gone.id,
        path: '/home/bench/clips/new-2.mov',
      }),
    )
  })

  it('says in words what is odd about it', async () => {
    const host = standInHost(some())
    const odd = host.data.clips.find(clip => clip.probe?.warnings[0]?.code === 'dropped-frames')!
    shownOn(host, <Sessions sessionId={odd.sessionId} />)
    expect((await clipOf(odd.name)).textContent).toContain('3 frames are missing after frame 214')
  })

  it('tells of its open hits which fit several rates and which have no figure, until they are decided', async () => {
    const data = some()
    const [first, second, ...more] = data.hits.filter(hit => hit.clipId === 'clip-0')
    first!.verdict = second!.verdict = { state: 'open', reason: '' }
    first!.reading = sampleReading({ flag: 'ambiguous' })
    second!.reading = sampleReading({ flag: 'too-few-frames', rpm: null, band: null })
    for (const hit of more) hit.reading = sampleReading()
    const host = standInHost(data)
    shownOn(host, <Sessions sessionId="session-0" />)
    const row = (await screen.findByText('hit-1400.mov')).closest('button')!
    await waitFor(() => expect(row.textContent).toMatch(/ambiguous.*(no figure|1 without a figure)/))
    first!.verdict = { state: 'held-back', reason: 'which it was is not known' }
    host.say({ kind: 'changed', what: 'hits', id: first!.hitId })
    await waitFor(() => expect(row.textContent).not.toMatch(/ambiguous/))
  })

  it('opens to its hits, and a new one leads to the bench', async () => {
    const host = standInHost(some())
    shownOn(host, <Sessions sessionId="session-0" />)
    fireEvent.click(await screen.findByText('hit-1400.mov'))
    const hits = host.data.hits.filter(hit => hit.clipId === 'clip-0')
    expect(screen.getAllByRole('link', { name: /^Hit \d/ })).toHaveLength(hits.length)
    const slider = screen.getByRole('slider', { name: 'Frame' })
    fireEvent.keyDown(slider, { key: 'End' })
    fireEvent.keyDown(slider, { key: 'ArrowLeft' })
    expect(slider.getAttribute('aria-valuenow')).toBe('766')
    press('New hit here')
    await waitFor(() => expect(location.hash).toBe('#/bench/hit-new-1'))
    expect(host.data.hits.at(-1)).toMatchObject({
      clipId: 'clip-0',
      window: { fromFrame: 706, toFrame: 767 },
    })
  })

  it('stands open again after a visit to the bench', async () => {
    const host = standInHost(some())
    const { unmount } = shownOn(host, <Sessions sessionId="session-0" />)
    fireEvent.click(await screen.findByText('hit-1400.mov'))
    unmount()
    shownOn(host, <Sessions sessionId="session-0" />)
    expect(await screen.findByRole('slider', { name: 'Frame' })).toBeTruthy()
  })

  it('gives one paddle to all its hits', async () => {
    const host = standInHost(some())
    shownOn(host, <Sessions sessionId="session-0" />)
    fireEvent.click(await screen.findByText('hit-1400.mov'))
    fireEvent.change(await screen.findByLabelText('Paddle of all hits of hit-1400.mov'), {
      target: { value: 'set-up-2-1' },
    })
    await waitFor(() => {
      const own = host.data.hits.filter(hit => hit.clipId === 'clip-0')
      expect(own.every(hit => hit.setUpId === 'set-up-2-1')).toBe(true)
    })
  })

  it('takes a new paddle named on the spot', async () => {
    const host = standInHost(some())
    shownOn(host, <Sessions sessionId="session-0" />)
    fireEvent.click(await screen.findByText('hit-1400.mov'))
    fireEvent.change(await screen.findByLabelText('Paddle of hit 1'), { target: { value: 'new' } })
    fireEvent.change(screen.getByLabelText('Paddle'), { target: { value: 'Harrow 15' } })
    fireEvent.change(screen.getByLabelText('Set-up'), { target: { value: 'overgrip' } })
    press('Keep')
    await waitFor(() => {
      const first = host.data.hits.find(hit => hit.clipId === 'clip-0')
      expect(first).toMatchObject({ paddle: 'Harrow 15', setUp: 'overgrip' })
    })
  })
})
