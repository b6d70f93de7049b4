import './app.css'
import { useEffect, useState } from 'react'
import { KeysHelp } from './components/keys-help.tsx'
import { TopLineSlot } from './components/top-line.tsx'
import { Wordmark } from './components/wordmark.tsx'
import { BenchScreen } from './screens/bench/bench-screen.tsx'
import { Cameras } from './screens/cameras/cameras.tsx'
import { Compare } from './screens/compare/compare.tsx'
import { Database } from './screens/database/database.tsx'
import { PaddleScreen } from './screens/paddle/paddle-screen.tsx'
import { Paddles } from './screens/paddles/paddles.tsx'
import { PlanScreen } from './screens/plan/plan.tsx'
import { PublishScreen } from './screens/publish/publish-screen.tsx'
import { Readings } from './screens/readings/readings.tsx'
import { Sessions } from './screens/sessions/sessions.tsx'
import { StudyScreen } from './screens/study/study-screen.tsx'
import { runKey, useKeyGroups, useKeys } from './state/keys.ts'
import { go, hrefOf, type Route, useRoute } from './state/route.ts'
import { useTheme } from './state/theme.ts'

const places = [
  { word: 'Plan', route: { screen: 'plan' }, key: 'Shift+p' },
  { word: 'Sessions', route: { screen: 'sessions', sessionId: null }, key: 'Shift+s' },
  { word: 'Readings', route: { screen: 'readings', hitId: null }, key: 'Shift+r' },
  { word: 'Paddles', route: { screen: 'paddles' }, key: 'Shift+d' },
  { word: 'Publish', route: { screen: 'publish', of: 'ranking', ids: [] }, key: 'Shift+u' },
  { word: 'Database', route: { screen: 'database' }, key: 'Shift+e' },
] satisfies { word: string; route: Route; key: string }[]

/** Screens that are reached from others. */
const unlisted: Partial<Record<Route['screen'], string>> = {
  bench: 'Bench',
  cameras: 'Cameras',
  study: 'Marking study',
  paddle: 'Paddle',
  compare: 'Compare',
}

/** The frame around every screen: one line on top, the rest is the screen's. */
export function App() {
  const route = useRoute()
  const [slot, setSlot] = useState<HTMLElement | null>(null)
  const { theme, turn } = useTheme()
  const toggleHelp = () => useKeyGroups.setState(state => ({ helpOpen: !state.helpOpen }))

  useEffect(() => {
    document.addEventListener('keydown', runKey)
    return () => document.removeEventListener('keydown', runKey)
  }, [])
  useEffect(() => {
    const place = places.find(each => each.route.screen === route.screen)?.word ?? unlisted[route.screen]
    document.title = `${place} · Whorl`
  }, [route.screen])
  useKeys('Everywhere', [
    ...places.map(place => ({ keys: [place.key], word: place.word, run: () => go(place.route) })),
    { keys: ['?'], word: 'Keys', run: toggleHelp },
  ])

  return (
    <TopLineSlot value={slot}>
      <div className="app">
        <header className="app-top">
          <Wordmark />
          <nav aria-label="Screens">
            {places.map(({ word, route: to }) => (
              <a
                key={word}
                href={hrefOf(to)}
                aria-current={
                  to.screen === homeOf(route) ? (to.screen === route.screen ? 'page' : 'true') : undefined
                }
              >
                {word}
              </a>
            ))}
          </nav>
          <div className="app-top-line" ref={setSlot} />
          <button type="button" className="app-top-button" onClick={turn}>
            {theme === 'light' ? 'Dark' : 'Light'}
          </button>
          <button type="button" className="app-top-button" onClick={toggleHelp} aria-keyshortcuts="?">
            Keys <kbd>?</kbd>
          </button>
        </header>
        <main className="app-screen">
          <Screen route={route} />
        </main>
        <KeysHelp />
      </div>
    </TopLineSlot>
  )
}

const homeOf = ({ screen }: Route): Route['screen'] => {
  if (screen === 'cameras') return 'plan'
  if (screen === 'bench' || screen === 'study') return 'sessions'
  return screen === 'paddle' || screen === 'compare' ? 'paddles' : screen
}

function Screen({ route }: { route: Route }) {
  switch (route.screen) {
    case 'bench':
      return <BenchScreen key={route.hitId} hitId={route.hitId} />
    case 'readings':
      return <Readings hitId={route.hitId} />
    case 'cameras':
      return <Cameras cameraId={route.cameraId} />
    case 'plan':
      return <PlanScreen />
    case 'paddles':
      return <Paddles />
    case 'paddle':
      return <PaddleScreen key={route.paddleId} paddleId={route.paddleId} />
    case 'compare':
      return <Compare setUpIds={route.setUpIds} />
    case 'database':
      return <Database />
    case 'study':
      return <StudyScreen key={route.sessionId} sessionId={route.sessionId} />
    case 'publish':
      return <PublishScreen of={route.of} ids={route.ids} />
    case 'sessions':
      return <Sessions sessionId={route.sessionId} />
  }
}
