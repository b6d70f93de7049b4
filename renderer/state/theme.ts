import { create } from 'zustand'

type Theme = 'light' | 'dark'
const kept = 'whorl-theme'

type ThemeState = { theme: Theme; turn: () => void }

/** Follows the system until a person turns it. The root's data-theme is what tokens.css goes by. */
export const useTheme = create<ThemeState>(set => ({
  theme: 'light',
  turn: () =>
    set(state => {
      const theme = state.theme === 'light' ? 'dark' : 'light'
      localStorage.setItem(kept, theme)
      return { theme }
    }),
}))

/** Sets the page's theme and keeps it in step with the system and the switch. */
export function startTheme() {
  const system = matchMedia('(prefers-color-scheme: dark)')
  const chosen = () => {
    const theme = localStorage.getItem(kept)
    return theme === 'light' || theme === 'dark' ? theme : null
  }
  const follow = () => useTheme.setState({ theme: chosen() ?? (system.matches ? 'dark' : 'light') })
  useTheme.subscribe(({ theme }) => {
    document.documentElement.dataset.theme = theme
  })
  system.addEventListener('change', follow)
  follow()
  document.documentElement.dataset.theme = useTheme.getState().theme
}
