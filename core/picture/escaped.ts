import { plainText } from './plain-text.ts'

/** Words as XML and HTML take them, as text and between quotes. */
export const escaped = (words: string): string =>
  plainText(words)
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;')
