/**
 * The Electron shell. It starts silent and locked, serves the page under its own scheme and answers the page's calls.
 * Reading order: quiet, page, guards, calls, windows; files, chosen, arrivals, drop-folder, following, opening and menu are what the
 * person sees of it; rewriting goes on before any page is there.
 */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { app, clipboard, session } from 'electron'
import { done } from '../shared/host.ts'
import { followSystem, offerWords, takeArrivals } from './arrivals.ts'
import { answerCalls } from './calls.ts'
import { findClipboardAddress, readClipboard } from './clipboard.ts'
import { chooseFiles, chooseFolder, readChosenFile, readChosenPart } from './chosen.ts'
import { createDropFolderCalls } from './drop-folder-calls.ts'
import { createFollowingCalls } from './following-calls.ts'
import { openFiles, saveFile } from './files.ts'
import { guardContents, guardSession } from './guards.ts'
import { offerTextMenu, setMenu } from './menu.ts'
import { forgetOriginals, offerLinkScheme, openAddress, openOriginal } from './opening.ts'
import { declareScheme, servePage } from './page.ts'
import { printPage } from './printing.ts'
import type { Rewriting } from './rewriting.ts'
import { createRewritingCalls, resumeRewriting } from './rewriting-calls.ts'
import { silenceChromium, silenceSession } from './quiet.ts'
import { finishClose, followQuit, openWindow, showWindow } from './windows.ts'
import { lineWithoutWords, maybeShortLine, takeKeptWords, wordsOf } from './words.ts'

function start(): void {
  silenceChromium()
  declareScheme()
  // enableSandbox overrules --no-sandbox, which the superuser needs; every child process would die then.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox()
  const profile = app.commandLine.getSwitchValue('user-data-dir')
  if (profile !== '') app.setPath('userData', profile)
  if (isRestartedShort()) return
  // Two programs on one store would each hold half of what was typed: the second one shows the first and ends.
  if (!app.requestSingleInstanceLock()) {
    app.quit()
    return
  }
  const rewriting = resumeRewriting()
  if (rewriting === null) return
  app.on('second-instance', (_event, argv, folder) => {
    showWindow()
    offerLine(argv, folder)
  })
  followSystem()
  offerLine(process.argv, process.cwd())
  app.on('web-contents-created', (_event, contents) => offerTextMenu(contents))
  guardContents()
  followQuit()
  void app.whenReady().then(() => showFirstWindow(rewriting))
}

/** Says whether the program goes on in a further start, since its own command line is too long to be handed on. */
function isRestartedShort(): boolean {
  const userData = app.getPath('userData')
  mkdirSync(userData, { recursive: true })
  const args = maybeShortLine(process.argv, process.cwd(), developmentPath(), userData)
  if (args === null) return false
  restart(args)
  return true
}

function startAnew(): void {
  restart(lineWithoutWords(process.argv, process.cwd(), developmentPath()))
}

function restart(args: readonly string[]): void {
  // Within an AppImage the program itself is gone once it has ended.
  app.relaunch({ args: [...args], execPath: process.env.APPIMAGE ?? process.execPath })
  app.exit(0)
}

function offerLine(argv: readonly string[], folder: string): void {
  offerWords(takeKeptWords(argv, app.getPath('userData')) ?? wordsOf(argv, folder, developmentPath()))
}

/** In development Electron is told which folder to run; in a package there is no such word. */
function developmentPath(): string | null {
  return app.isPackaged ? null : app.getAppPath()
}

function showFirstWindow(rewriting: Rewriting): void {
  silenceSession(session.defaultSession)
  guardSession(session.defaultSession)
  servePage(session.defaultSession, join(__dirname, '../renderer'))
  answerCalls({
    describe: () => done({ kind: 'electron', version: app.getVersion(), platform: process.platform }),
    saveFile,
    openFiles,
    chooseFiles,
    chooseFolder,
    readChosenFile,
    readChosenPart,
    ...createDropFolderCalls(),
    ...createFollowingCalls(),
    ...createRewritingCalls(rewriting, startAnew, () => session.defaultSession.flushStorageData()),
    takeArrivals,
    openAddress,
    openOriginal,
    copyText: async (_window, { text }) => {
      // A promise in newer Electrons, nothing in older ones.
      await clipboard.writeText(text)
      return done(null)
    },
    readClipboard,
    findClipboardAddress,
    printPage,
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
  forgetOriginals()
  offerLinkScheme()
}

start()
