/**
 * Takes pictures of the gallery's scenes. Build it first: npx vite build --config build/gallery/vite.config.ts
 * Usage: node build/gallery/shots.mjs <folder> [scene …]
 */
import { mkdirSync } from 'node:fs'
import { chromium } from '@playwright/test'
import { preview } from 'vite'

const [folder = 'test-results/gallery', ...wanted] = process.argv.slice(2)
const scenes =
  wanted.length > 0
    ? wanted
    : ['screen', 'drag', 'reading', 'folded', 'empty', 'parts', 'dialog', 'confirm', 'menu']
/** @type {[number, number][]} */
const sizes = [
  [1280, 800],
  [1920, 1080],
]

mkdirSync(folder, { recursive: true })
const server = await preview({
  configFile: new URL('vite.config.ts', import.meta.url).pathname,
  preview: { host: '127.0.0.1', port: 5178 },
})
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] })
for (const [width, height] of sizes) {
  const page = await browser.newPage({ viewport: { width, height } })
  page.on('pageerror', (error) => console.error('page error:', error.message))
  page.on('console', (line) => line.type() === 'error' && console.error('console:', line.text()))
  for (const scene of scenes) {
    for (const theme of ['light', 'dark']) {
      for (const size of width === 1280 && scene === 'screen' ? ['normal', 'bench'] : ['normal']) {
        await page.goto(`http://127.0.0.1:5178/?scene=${scene}&theme=${theme}&size=${size}`)
        await page.evaluate(() => document.fonts.ready)
        await page.screenshot({
          path: `${folder}/${scene}-${width}-${theme}${size === 'bench' ? '-bench' : ''}.png`,
        })
      }
    }
  }
  await page.close()
}
await browser.close()
await server.close()
