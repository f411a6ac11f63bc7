/**
 * An empty window that may read files, for the bare watcher of follow-speed.ts. In CommonJS, since Electron 25 starts no
 * other.
 */
const { app, BrowserWindow } = require('electron')

app.whenReady().then(() => {
  const webPreferences = { nodeIntegration: true, contextIsolation: false, sandbox: false }
  const window = new BrowserWindow({ width: 1280, height: 800, webPreferences })
  return window.loadURL('data:text/html,<!doctype html><title>bare</title>')
})
app.on('window-all-closed', () => app.quit())
