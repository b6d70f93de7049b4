import './tokens.css'
import './base.css'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'
import { HostProvider } from './host/host.ts'
import { pickHost } from './host/pick-host.ts'
import { startTheme } from './state/theme.ts'

startTheme()
createRoot(document.getElementById('root')!).render(
  <HostProvider value={pickHost()}>
    <App />
  </HostProvider>,
)
