import type { KeyBinding } from './keys.ts'

/** Keys that move from row to row of a list: by one, by ten, to its ends. `word` is one row's: `hit`. */
export function rowSteps(
  word: string,
  ids: readonly string[],
  at: string | null,
  onAt: (id: string) => void,
): KeyBinding[] {
  const step = (by: number) => {
    const index = at === null ? -1 : ids.indexOf(at)
    const to = ids[index < 0 ? 0 : Math.min(ids.length - 1, Math.max(0, index + by))]
    if (to !== undefined) onAt(to)
  }
  const capital = `${word[0]?.toUpperCase()}${word.slice(1)}`
  return [
    { keys: ['ArrowDown'], word: `Next ${word}`, run: () => step(1) },
    { keys: ['ArrowUp'], word: `${capital} before`, run: () => step(-1) },
    { keys: ['PageDown'], word: `Ten ${word}s on`, run: () => step(10) },
    { keys: ['PageUp'], word: `Ten ${word}s back`, run: () => step(-10) },
    { keys: ['Home'], word: `First ${word}`, run: () => step(-ids.length) },
    { keys: ['End'], word: `Last ${word}`, run: () => step(ids.length) },
  ]
}
