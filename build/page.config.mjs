/** How vite builds the page. One target serves both hosts: Chrome 114 and newer. */
import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import { defaultClientConditions } from 'vite'

/**
 * @param {string} root the project's folder
 * @param {string} outDir where the page goes
 * @param {string} version the program's version
 * @returns {import('vite').InlineConfig}
 */
export function pageConfig(root, outDir, version) {
  return {
    configFile: false,
    root: join(root, 'renderer'),
    base: '/',
    logLevel: 'warn',
    plugins: [react()],
    define: { __STILLROOM_VERSION__: JSON.stringify(version) },
    worker: { format: 'es' },
    // The same modules run in the page and in its workers, where there is no document.
    resolve: { conditions: ['worker', ...defaultClientConditions], alias: leftOut(root) },
    build: {
      outDir,
      emptyOutDir: true,
      target: 'chrome114',
      // Fonts and pictures stay files: the page's policy lets fonts come from its own origin only.
      assetsInlineLimit: 0,
      // The policy forbids what the preload helper injects, and every file is on this machine anyway.
      modulePreload: false,
      chunkSizeWarningLimit: 4000,
      sourcemap: false,
    },
  }
}

/**
 * Large parts of the library that draws diagrams which are never reached here: they would only make the program larger.
 *
 * @param {string} root the project's folder
 * @returns {Record<string, string>}
 */
function leftOut(root) {
  const standIn = (/** @type {string} */ name) => join(root, 'renderer', 'sketch', 'drawing', name)
  const layouts = ['cytoscape-cose-bilkent', 'cytoscape-fcose', 'cytoscape']
  return {
    ...Object.fromEntries(layouts.map((name) => [name, standIn('absent.ts')])),
    katex: standIn('formulas.ts'),
  }
}
