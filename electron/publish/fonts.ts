import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { outsideArchive } from '../service/places.ts'

const packages = createRequire(import.meta.url)

/** The fonts of pictures and reports: the program's own, then those for names in other scripts. */
const families = [
  'atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf',
  'atkinson-hyperlegible-next/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf',
  'noto-sans-hebrew/400Regular/NotoSansHebrew_400Regular.ttf',
  'noto-sans-arabic/400Regular/NotoSansArabic_400Regular.ttf',
  'noto-emoji/400Regular/NotoEmoji_400Regular.ttf',
]
export const fontFiles: readonly string[] = families.map(file =>
  outsideArchive(packages.resolve(`@expo-google-fonts/${file}`)),
)

/** CSS that brings the text's font along inside a file: nothing is fetched when it is shown. */
export function fontFace(): string {
  return [400, 600]
    .map(weight => {
      const file = `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-${weight}-normal.woff2`
      const base64 = readFileSync(packages.resolve(file)).toString('base64')
      return (
        `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight};` +
        `src:url(data:font/woff2;base64,${base64}) format('woff2')}`
      )
    })
    .join('')
}
