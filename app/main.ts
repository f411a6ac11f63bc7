/**
 * The Electron shell. It starts silent and locked, serves the page under its own scheme and answers the page's calls.
 * Reading order: quiet, page, guards, calls, windows; files and menu are what the person sees of it.
 */
import { join } from 'node:path'
import { app, clipboard, session } from 'electron'
import { done } from '../shared/host.ts'
import { answerCalls } from './calls.ts'
import { openFiles, saveFile } from './files.ts'
import { guardContents, guardSession } from './guards.ts'
import { offerTextMenu, setMenu } from './menu.ts'
import { declareScheme, servePage } from './page.ts'
import { silenceChromium, silenceSession } from './quiet.ts'
import { finishClose, followQuit, openWindow, showWindow } from './windows.ts'

function start(): void {
  silenceChromium()
  declareScheme()
  // enableSandbox overrules --no-sandbox, which the superuser needs; every child process would die then.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox()
  const profile = app.commandLine.getSwitchValue('user-data-dir')
  if (profile !== '') app.setPath('userData', profile)
  // Two programs on one store would each hold half of what was typed: the second one shows the first and ends.
  if (!app.requestSingleInstanceLock()) {
    app.quit()
    return
  }
  app.on('second-instance', showWindow)
  app.on('web-contents-created', (_event, contents) => offerTextMenu(contents))
  guardContents()
  followQuit()
  void app.whenReady().then(showFirstWindow)
}

function showFirstWindow(): void {
  silenceSession(session.defaultSession)
  guardSession(session.defaultSession)
  servePage(session.defaultSession, join(__dirname, '../renderer'))
  answerCalls({
    describe: () => done({ kind: 'electron', version: app.getVersion(), platform: process.platform }),
    saveFile,
    openFiles,
    copyText: async (_window, { text }) => {
      // A promise in newer Electrons, nothing in older ones.
      await clipboard.writeText(text)
      return done(null)
    },
    newWindow: () => {
      openWindow()
      return done(null)
    },
    readyToClose: (window) => {
      finishClose(window)
      return done(null)
    },
  })
  setMenu()
  openWindow()
  app.on('activate', showWindow)
}

start()
