import { cleanup, render } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { keyOf, runKey, useKeyGroups, useKeys } from '../../../renderer/state/keys.ts'

const pressed = (given: Partial<KeyboardEvent>) =>
  keyOf({ key: '', ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...given })

describe('the name of a key', () => {
  it.each([
    [{ key: 'a' }, 'a'],
    [{ key: 'A', shiftKey: true }, 'Shift+a'],
    [{ key: '?', shiftKey: true }, '?'],
    [{ key: ' ' }, 'Space'],
    [{ key: 'ArrowLeft', shiftKey: true }, 'Shift+ArrowLeft'],
    [{ key: 'z', ctrlKey: true }, 'Mod+z'],
    [{ key: 'Z', metaKey: true, shiftKey: true }, 'Mod+Shift+z'],
    [{ key: '1', altKey: true }, 'Alt+1'],
  ])('%o is %s', (event, name) => expect(pressed(event)).toBe(name))
})

const outer = vi.fn()
const inner = vi.fn()
const leave = vi.fn()
function Inner() {
  useKeys('Inner', [{ keys: ['x'], word: 'Inner step', run: inner }])
  return <input aria-label="field" />
}
function Outer({ withInner = true }) {
  useKeys('Outer', [
    { keys: ['x', 'y'], word: 'Outer step', run: outer },
    { keys: ['Escape'], word: 'Leave', whileTyping: true, run: leave },
    { keys: ['Enter'], word: 'Open', run: outer },
  ])
  return (
    <>
      {withInner && <Inner />}
      <button type="button">press</button>
    </>
  )
}

describe('keys in force', () => {
  beforeEach(() => {
    document.addEventListener('keydown', runKey)
    vi.clearAllMocks()
  })
  afterEach(() => {
    document.removeEventListener('keydown', runKey)
    useKeyGroups.setState({ helpOpen: false })
    cleanup()
  })
  const press = (key: string, at: Element = document.body) =>
    at.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))

  it('lets what stands inside answer before what is around it', () => {
    render(<Outer />)
    press('x')
    press('y')
    expect(inner).toHaveBeenCalledTimes(1)
    expect(outer).toHaveBeenCalledTimes(1)
  })

  it('goes back to the outer meaning when the inner part is gone', () => {
    const { rerender } = render(<Outer />)
    rerender(<Outer withInner={false} />)
    press('x')
    expect(outer).toHaveBeenCalledTimes(1)
  })

  it('leaves typing alone, but for keys that say otherwise', () => {
    const { getByLabelText } = render(<Outer />)
    press('y', getByLabelText('field'))
    press('Escape', getByLabelText('field'))
    expect(outer).not.toHaveBeenCalled()
    expect(leave).toHaveBeenCalledTimes(1)
  })

  it('leaves Enter to a button that has the focus', () => {
    const { getByText } = render(<Outer />)
    press('Enter', getByText('press'))
    expect(outer).not.toHaveBeenCalled()
  })

  it('rests while the keys help is open', () => {
    render(<Outer />)
    useKeyGroups.setState({ helpOpen: true })
    press('y')
    expect(outer).not.toHaveBeenCalled()
  })
})
