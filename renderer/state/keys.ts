import { useEffect, useRef, useState } from 'react'
import { create } from 'zustand'

/**
 * One thing that a key does. Keys are written as `a`, `?`, `ArrowLeft`, `Shift+ArrowLeft`, `Mod+z`,
 * `Space`; Mod is Control, or Command on a Mac.
 */
export type KeyBinding = {
  keys: string[]
  word: string
  run: (event: KeyboardEvent) => void
  /** Also while the person types in a field (Escape, mostly). */
  whileTyping?: boolean
}
type KeyGroup = { title: string; bindings: { current: KeyBinding[] }; place: number }

/** The groups in force, oldest first: the frame, then the screen, then what is open in it. */
export const useKeyGroups = create<{ groups: KeyGroup[]; helpOpen: boolean }>(() => ({
  groups: [],
  helpOpen: false,
}))

let drawn = 0

/** Puts keys in force while the calling component is shown; `title` heads them in the keys help. */
export function useKeys(title: string, bindings: KeyBinding[]) {
  const current = useRef(bindings)
  // Parents are drawn before what stands in them, yet come into force after: the place keeps the order.
  const [place] = useState(() => ++drawn)
  current.current = bindings
  useEffect(() => {
    const group: KeyGroup = { title, bindings: current, place }
    useKeyGroups.setState(state => ({
      groups: [...state.groups, group].sort((a, b) => a.place - b.place),
    }))
    return () => useKeyGroups.setState(state => ({ groups: state.groups.filter(other => other !== group) }))
  }, [title, place])
}

/** The key as it is written in a binding. Shift is named for letters and named keys, not for signs like `?`. */
export function keyOf(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>) {
  const key = event.key === ' ' ? 'Space' : event.key.length === 1 ? event.key.toLowerCase() : event.key
  const shiftCounts = key.length > 1 || /\p{L}/u.test(key)
  return [
    event.ctrlKey || event.metaKey ? 'Mod+' : '',
    event.altKey ? 'Alt+' : '',
    event.shiftKey && shiftCounts ? 'Shift+' : '',
    key,
  ].join('')
}

/** Runs the newest binding for a key press; leaves typing and pressed buttons alone. */
export function runKey(event: KeyboardEvent) {
  if (event.defaultPrevented) return
  const key = keyOf(event)
  const { groups, helpOpen } = useKeyGroups.getState()
  if (helpOpen && key !== '?') return
  const typing = isTyping(event.target)
  if ((key === 'Enter' || key === 'Space') && isPressable(event.target)) return
  for (const group of groups.toReversed()) {
    const binding = group.bindings.current.find(
      each => each.keys.includes(key) && (!typing || each.whileTyping),
    )
    if (!binding) continue
    event.preventDefault()
    binding.run(event)
    return
  }
}

const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  target.matches('textarea, select, [contenteditable=true], input:not([type=checkbox], [type=radio])')

const isPressable = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.matches('button, a[href], summary, input[type=checkbox]')
