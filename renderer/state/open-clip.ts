import { create } from 'zustand'

/** The clip that stands open among the sessions, still so after a visit to the bench. */
export const useOpenClip = create<{ clipId: string | null }>(() => ({ clipId: null }))

export const toggleClip = (clipId: string) =>
  useOpenClip.setState(last => ({ clipId: last.clipId === clipId ? null : clipId }))
