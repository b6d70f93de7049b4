import '../../../renderer/tokens.css'
import '../../../renderer/base.css'
import { createRoot } from 'react-dom/client'
import { App } from '../../../renderer/app.tsx'
import { HostProvider } from '../../../renderer/host/host.ts'
import { startTheme } from '../../../renderer/state/theme.ts'
import { manyOf } from '../stand-in-data.ts'
import { standInHost } from '../stand-in-host.ts'
import { planOf } from '../stand-in-plan.ts'
import { flyingBall } from './flying-ball.ts'

/** `?hits=0` shows an empty workspace, `?hits=100000` a very full one. */
const hits = Number(new URLSearchParams(location.search).get('hits') ?? 300)
const data =
  hits === 0 ? manyOf({ sessions: 0, clips: 0, hits: 0 }) : manyOf({ sessions: 6, clips: 40, hits })
const host = standInHost(data, {
  frame: async (clipId, frame, options) => flyingBall(clipId, frame, options?.maxWidthPx ?? 960),
  'export.preview': ({ target }) => planOf(target, data, false),
  'export.write': ({ target }) => planOf(target, data, true),
})

startTheme()
createRoot(document.getElementById('root')!).render(
  <HostProvider value={host}>
    <App />
  </HostProvider>,
)
