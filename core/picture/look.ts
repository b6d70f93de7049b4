import type { Look, Theme } from '../contract/publish.ts'
import type { Flag } from '../contract/reading.ts'
import { type Hues, huesOf, isDark } from './accents.ts'
import { contrast, linearOf } from './colour-sight.ts'

export type { Look, Size } from '../contract/publish.ts'

export type Palette = Hues & {
  paper: string | null
  ink: string
  quiet: string
  line: string
  strong: string
  /** Letters on the first hue. */
  onFirst: string
  flags: Record<Flag, string>
}
type Ground = Omit<Palette, keyof Hues | 'onFirst'> & { paper: string }

const light: Ground = {
  paper: '#ffffff',
  ink: '#1b2328',
  quiet: '#5a6268',
  line: '#d5dadc',
  strong: '#81878b',
  flags: { clear: '#00794f', 'near-ceiling': '#a35f00', ambiguous: '#9c3f75', 'too-few-frames': '#5a6268' },
}
const dark: Ground = {
  paper: '#131719',
  ink: '#e4e9ea',
  quiet: '#9ba3a8',
  line: '#303539',
  strong: '#697075',
  flags: { clear: '#35b88b', 'near-ceiling': '#e69f00', ambiguous: '#de81b5', 'too-few-frames': '#9ba3a8' },
}

/** Two data hues differ in lightness too: they stay apart in grey and to colour-blind eyes. */
export function paletteOf({ theme, accents }: Pick<Look, 'theme' | 'accents'>): Palette {
  const ground = isDark(theme) ? dark : light
  const hues = huesOf(accents, theme)
  return { ...ground, ...hues, onFirst: lettersOn(hues.first), paper: isOnPage(theme) ? null : ground.paper }
}

const isOnPage = (theme: Theme) => theme === 'transparent' || theme === 'transparent-dark'

const lettersOn = (hue: string): string => {
  const [white, black] = [light.paper, dark.paper]
  const to = (letters: string) => contrast(linearOf(letters), linearOf(hue))
  return to(white) >= to(black) ? white : black
}
