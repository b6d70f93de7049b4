import { digits } from './figure-text.ts'

/** `1 clip`, `3 clips`: a count with its word. */
export const counted = (count: number, word: string, words = `${word}s`): string =>
  `${digits(count)}\u00a0${count === 1 ? word : words}`
