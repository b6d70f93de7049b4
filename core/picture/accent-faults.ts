import type { Look } from '../contract/publish.ts'
import { huesOf, isDark } from './accents.ts'
import { contrast, linearOf, type Sight, seenAs, sights } from './colour-sight.ts'

/** Two hues must stand this far apart, by WCAG's contrast, to be told from each other without their colour. */
const leastApart = 1.8
/** WCAG 2.2, 1.4.11: what must be seen stands 3:1 against what is behind it. */
const leastSeen = 3

const words: Record<Sight, string> = {
  protanopia: 'to eyes that lack red',
  deuteranopia: 'to eyes that lack green',
  tritanopia: 'to eyes that lack blue',
  grey: 'in grey print',
}

/** What is wrong with the two colours of a look, a sentence each; none for the proven pairs. */
export function accentFaults({ theme, accents }: Pick<Look, 'theme' | 'accents'>): string[] {
  const { first, second } = huesOf(accents, theme)
  const paper = isDark(theme) ? '#131719' : '#ffffff'
  const faint = ([first, second] as const).flatMap((hue, i) =>
    contrast(linearOf(hue), linearOf(paper)) < leastSeen
      ? [`The ${i === 0 ? 'first' : 'second'} colour is hard to see on this paper.`]
      : [],
  )
  const alike = (Object.keys(sights) as Sight[]).filter(
    sight => contrast(seenAs(sight, first), seenAs(sight, second)) < leastApart,
  )
  return alike.length === 0
    ? faint
    : [...faint, `The two colours look much the same ${alike.map(sight => words[sight]).join(', ')}.`]
}
