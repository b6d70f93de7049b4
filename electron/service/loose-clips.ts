import { randomUUID } from 'node:crypto'

/** Clips that are only looked at: known while the program runs, in no session. */
export type LooseClips = {
  /** The same path has the same id. */
  put(path: string): string
  pathOf(id: string): string | null
}

export function createLooseClips(): LooseClips {
  const paths = new Map<string, string>()
  return {
    put: path => {
      const there = [...paths].find(([, known]) => known === path)?.[0]
      const id = there ?? randomUUID()
      paths.set(id, path)
      return id
    },
    pathOf: id => paths.get(id) ?? null,
  }
}
