import { useSyncExternalStore } from 'react'

/** Where the person is. It lives in the address, so that back, forward and a reload keep the place. */
export type Route =
  | { screen: 'sessions'; sessionId: string | null }
  | { screen: 'bench'; hitId: string }
  | { screen: 'readings'; hitId: string | null }
  | { screen: 'paddles' }
  | { screen: 'paddle'; paddleId: string }
  | { screen: 'compare'; setUpIds: string[] }
  | { screen: 'database' }
  | { screen: 'plan' }
  | { screen: 'cameras'; cameraId: string | null }
  | { screen: 'publish'; of: PublishedThing; ids: string[] }
  | { screen: 'study'; sessionId: string }

/** What is published. `ids` name one hit, session or set-up, the set-ups compared, or nothing. */
export type PublishedThing = 'hit' | 'paddle' | 'session' | 'comparison' | 'ranking'
const publishedThings: readonly string[] = ['hit', 'paddle', 'session', 'comparison', 'ranking']
const isPublished = (word: string | undefined): word is PublishedThing => publishedThings.includes(word ?? '')

export function hrefOf(route: Route): string {
  const parts: (string | null)[] = [route.screen]
  if (route.screen === 'sessions' || route.screen === 'study') parts.push(route.sessionId)
  if (route.screen === 'bench' || route.screen === 'readings') parts.push(route.hitId)
  if (route.screen === 'cameras') parts.push(route.cameraId)
  if (route.screen === 'paddle') parts.push(route.paddleId)
  if (route.screen === 'compare') parts.push(route.setUpIds.join(',') || null)
  if (route.screen === 'publish') parts.push(route.of, route.ids.join(',') || null)
  return `#/${parts.flatMap(part => (part === null ? [] : [encodeURIComponent(part)])).join('/')}`
}

/** An address that names nothing leads home. */
export function routeOf(hash: string): Route {
  const [screen, id, ids] = hash.replace(/^#\/?/, '').split('/').map(decoded)
  if (screen === 'bench' && id) return { screen, hitId: id }
  if (screen === 'study' && id) return { screen, sessionId: id }
  if (screen === 'paddle' && id) return { screen, paddleId: id }
  if (screen === 'cameras') return { screen, cameraId: id || null }
  if (screen === 'paddles') return { screen }
  if (screen === 'compare') return { screen, setUpIds: id ? id.split(',') : [] }
  if (screen === 'publish') {
    if (!isPublished(id)) return { screen, of: 'ranking', ids: [] }
    return { screen, of: id, ids: ids ? ids.split(',') : [] }
  }
  if (screen === 'readings') return { screen, hitId: id || null }
  if (screen === 'database' || screen === 'plan') return { screen }
  return { screen: 'sessions', sessionId: (screen === 'sessions' && id) || null }
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part)
  } catch {
    return ''
  }
}

/** Leads somewhere; `in place` leaves no step for the back key. */
export function go(route: Route, how: 'onward' | 'in place' = 'onward') {
  if (how === 'onward') location.assign(hrefOf(route))
  else location.replace(hrefOf(route))
}

const listen = (changed: () => void) => {
  addEventListener('hashchange', changed)
  return () => removeEventListener('hashchange', changed)
}

export function useRoute(): Route {
  return routeOf(useSyncExternalStore(listen, () => location.hash))
}
