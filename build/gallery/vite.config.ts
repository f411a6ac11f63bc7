/** The gallery: every part of the kit in a still of the whole screen. For developers only; not part of the program. */
import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  build: { target: 'chrome114', outDir: '../../.cache/gallery', emptyOutDir: true },
  server: { host: '127.0.0.1', port: 5179, strictPort: true, fs: { allow: ['../..'] } },
})
