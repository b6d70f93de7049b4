import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** The page on a stand-in host, for looking at: `npx vite --config tests/renderer/preview/vite.config.ts`. */
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [react()],
  build: { assetsInlineLimit: 0 },
})
