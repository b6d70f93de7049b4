import { createContext, useContext } from 'react'
import { useStore } from 'zustand'
import type { BenchState } from './bench-state.ts'
import type { BenchStore } from './bench-store.ts'

const StoreContext = createContext<BenchStore | null>(null)
export const BenchProvider = StoreContext.Provider

/** The store itself, for what happens on a key or a click. */
export function useBenchStore(): BenchStore {
  const store = useContext(StoreContext)
  if (!store) throw new Error('A part of the bench was drawn outside BenchProvider.')
  return store
}

/** One piece of the bench's state; the component is drawn again when this piece changes. */
export const useBench = <T>(piece: (state: BenchState) => T): T => useStore(useBenchStore(), piece)
