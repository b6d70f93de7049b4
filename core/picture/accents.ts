import type { AccentName, Accents, Theme } from '../contract/publish.ts'

export type Hues = { first: string; second: string }

/** Each pair differs in lightness, so that it stays apart in grey: the first stands out more on its paper. */
const pairs: Record<AccentName, { light: Hues; dark: Hues }> = {
  'blue-amber': {
    light: { first: '#004c7e', second: '#c67f09' },
    dark: { first: '#8fd0f8', second: '#b36f00' },
  },
  'green-orange': {
    light: { first: '#00564a', second: '#d0742a' },
    dark: { first: '#8ee0c4', second: '#b5652a' },
  },
  'plum-gold': {
    light: { first: '#5c2a66', second: '#a98a00' },
    dark: { first: '#e3b7ee', second: '#a07d00' },
  },
  'red-blue': {
    light: { first: '#7c1d1d', second: '#4f97d1' },
    dark: { first: '#f7b4a8', second: '#3f83c4' },
  },
  greys: {
    light: { first: '#2b3338', second: '#83898d' },
    dark: { first: '#dfe4e6', second: '#7d8489' },
  },
}

export const isDark = (theme: Theme): boolean => theme === 'dark' || theme === 'transparent-dark'

export const huesOf = (accents: Accents, theme: Theme): Hues =>
  typeof accents === 'string' ? pairs[accents][isDark(theme) ? 'dark' : 'light'] : accents
