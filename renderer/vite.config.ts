import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/**
 * The page, as plain files beside each other: relative addresses, so that both shells can serve it; no
 * inline script and no data: address, so that the strictest content policy holds.
 */
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [react()],
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'chrome130',
    // Read from this machine's own disk: one file comes as fast as many.
    chunkSizeWarningLimit: 2000,
  },
})
