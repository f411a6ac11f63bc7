/** The windows: how they are made, and how they close only after the screen has saved what was being typed. */
import { join } from 'node:path'
import { app, BrowserWindow, nativeTheme, screen } from 'electron'
import { closeRequestedChannel, closeWaitMs } from '../shared/host.ts'
import { ensureVisible, keepPlace, maybeReadPlace, smallest, type Place } from './place.ts'
import { pageAddress } from './page.ts'

/** Ends the wait of a window that is about to close. There is one for each window that waits. */
const waiting = new Map<BrowserWindow, () => void>()
let isQuitting = false
/** A page that dies sooner than this after it was loaded is not loaded again, in milliseconds. */
const secondCrashMs = 2000

/** Remembers that the program is to end, so that the last window to have saved ends it. Call once at the start. */
export function followQuit(): void {
  app.on('before-quit', () => {
    isQuitting = true
  })
  app.on('window-all-closed', () => app.quit())
}

/** Says whether one window is to stay the only one. */
let isAlone = (): boolean => false

/** Lets no second window open as long as the answer is yes: two would each write the store anew. */
export function stayAlone(is: () => boolean): void {
  isAlone = is
}

/** Opens a window onto the labs. A further one stands a little lower and to the right of the one in front. */
export function openWindow(): BrowserWindow {
  const only = isAlone() ? BrowserWindow.getAllWindows()[0] : undefined
  if (only !== undefined) {
    only.focus()
    return only
  }
  const place = nextPlace()
  const window = new BrowserWindow({
    ...place,
    minWidth: smallest.width,
    minHeight: smallest.height,
    show: false,
    title: 'Stillroom',
    // The journal's paper, so that a window does not flash before its page is there.
    backgroundColor: nativeTheme.shouldUseDarkColors ? '#262522' : '#e6e3dc',
    webPreferences: {
      preload: join(__dirname, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
      enableWebSQL: false,
      navigateOnDragDrop: false,
      // A window in the background goes on saving what was typed in it.
      backgroundThrottling: false,
    },
  })
  if (place.maximized) window.maximize()
  window.once('ready-to-show', () => window.show())
  window.on('close', (event) => closeAfterSaving(window, event))
  window.on('closed', () => waiting.delete(window))
  reloadAfterCrash(window)
  void window.loadURL(pageAddress)
  return window
}

/** Brings a window to the front, or opens one when there is none. */
export function showWindow(): void {
  const window = BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0]
  if (window === undefined) {
    openWindow()
    return
  }
  if (window.isMinimized()) window.restore()
  window.focus()
}

/** Closes a window whose screen says that everything is saved. Without a close under way it does nothing. */
export function finishClose(window: BrowserWindow): void {
  waiting.get(window)?.()
}

function closeAfterSaving(window: BrowserWindow, event: Electron.Event): void {
  keepPlace(placeFile(), { ...window.getNormalBounds(), maximized: window.isMaximized() })
  if (window.webContents.isCrashed()) return
  event.preventDefault()
  if (waiting.has(window)) return
  const finish = (): void => {
    clearTimeout(timer)
    waiting.delete(window)
    if (!window.isDestroyed()) window.destroy()
    // Holding a window back ends the system's attempt to quit, so it is taken up again for the windows that are left.
    if (isQuitting) app.quit()
  }
  const timer = setTimeout(finish, closeWaitMs)
  waiting.set(window, finish)
  window.webContents.send(closeRequestedChannel)
}

/** Shows the page again when its process has died; once, since a page that dies at every start would do so for ever. */
function reloadAfterCrash(window: BrowserWindow): void {
  let loadedAt = 0
  window.webContents.on('did-finish-load', () => (loadedAt = Date.now()))
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason !== 'clean-exit' && Date.now() - loadedAt > secondCrashMs) window.reload()
  })
}

function placeFile(): string {
  return join(app.getPath('userData'), 'window.json')
}

function nextPlace(): Place {
  const main = screen.getPrimaryDisplay()
  const others = screen.getAllDisplays().filter((display) => display.id !== main.id)
  const front = BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0]
  const former = front === undefined ? maybeReadPlace(placeFile()) : shifted(front)
  return ensureVisible(
    former,
    [main, ...others].map((display) => display.workArea),
  )
}

function shifted(window: BrowserWindow): Place {
  const bounds = window.getNormalBounds()
  return { ...bounds, x: bounds.x + 32, y: bounds.y + 32, maximized: false }
}
