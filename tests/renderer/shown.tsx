import { configure, render } from '@testing-library/react'
import type { ReactElement } from 'react'
import { HostProvider } from '../../renderer/host/host.ts'
import type { StandIn } from './stand-in-host.ts'

// A busy machine is slow, not broken.
configure({ asyncUtilTimeout: 8000 })

/** Draws a piece of the page on a stand-in host. */
export const shownOn = (host: StandIn, piece: ReactElement) =>
  render(<HostProvider value={host}>{piece}</HostProvider>)
