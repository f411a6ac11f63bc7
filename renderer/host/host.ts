/** Picks the host that this page runs in. */
import { hostCallNames, hostEventNames, type Host, type HostBridge } from '../../shared/host.ts'
import { createBrowserHost } from './browser.ts'
import { createElectronHost } from './electron.ts'

declare const __STILLROOM_VERSION__: string

/** The page's host: Electron where its preload script has run, else the browser. Make one for each page. */
export function createHost(window: Window & typeof globalThis): Host {
  const bridge: unknown = (window as { stillroomHost?: unknown }).stillroomHost
  return isBridge(bridge) ? createElectronHost(bridge) : createBrowserHost(window, __STILLROOM_VERSION__)
}

/**
 * The nonce that a style element of this page must carry, fresh for each load. Editors get it through
 * `EditorView.cspNonce`, since the editor library writes its rules into a style element of its own.
 */
export function styleNonce(document: Document): string {
  const meta = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')
  if (meta === null) throw new Error('the page was served without a nonce for its styles')
  return meta.nonce
}

function isBridge(value: unknown): value is HostBridge {
  if (typeof value !== 'object' || value === null) return false
  return [...hostCallNames, ...hostEventNames].every(
    (name) => typeof (value as Record<string, unknown>)[name] === 'function',
  )
}
