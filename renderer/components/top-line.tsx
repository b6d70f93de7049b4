import { createContext, useContext } from 'react'
import { createPortal } from 'react-dom'

const Slot = createContext<HTMLElement | null>(null)
export const TopLineSlot = Slot.Provider

/** What a screen says in the frame's one top line (the bench: session, clip, hit), without a line of its own. */
export function TopLine({ children }: { children: React.ReactNode }) {
  const slot = useContext(Slot)
  return slot && createPortal(children, slot)
}
