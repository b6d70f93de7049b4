import './tokens.css'
import './base.css'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'
import { HostProvider } from './host/host.ts'
import { pickHost } from './host/pick-host.ts'
import { guardLeaving } from './state/guard-leaving.ts'
import { startTheme } from './state/theme.ts'

startTheme()
const host = pickHost()
guardLeaving(host)
createRoot(document.getElementById('root')!).render(
  <HostProvider value={host}>
    <App />
  </HostProvider>,
)
