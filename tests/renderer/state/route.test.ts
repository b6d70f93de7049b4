import { describe, expect, it } from 'vitest'
import { hrefOf, type Route, routeOf } from '../../../renderer/state/route.ts'

describe('an address', () => {
  it.each<Route>([
    { screen: 'sessions', sessionId: null },
    { screen: 'sessions', sessionId: 'a/b #1' },
    { screen: 'bench', hitId: 'hit-7' },
    { screen: 'readings', hitId: null },
    { screen: 'readings', hitId: 'ü?' },
    { screen: 'database' },
    { screen: 'study', sessionId: 'a/b' },
  ])('leads back to where it was made: %o', route => {
    expect(routeOf(hrefOf(route))).toEqual(route)
  })

  it.each(['', '#', '#/', '#/nowhere', '#/bench', '#/bench/', '#/study', '#/sessions/%zz'])(
    'that names nothing leads home: %s',
    hash => {
      expect(routeOf(hash)).toEqual({ screen: 'sessions', sessionId: null })
    },
  )
})
