/** The screen's host in a plain browser window: files go out as downloads and come in through the file picker. */
import {
  done,
  failed,
  notWebAddress,
  type Host,
  type HostAnswer,
  type HostArgument,
  type HostFailure,
  type HostResult,
  type OpenedFile,
} from '../../shared/host.ts'
import { maybeOpenable, notOpenable, plainFileWords } from '../../shared/intake/openable.ts'
import { maybeWebAddress } from '../../shared/markdown/addresses.ts'
import { ChosenFiles, pickFiles, readFile } from './choosing.ts'
import { readClipboard } from './clipboard.ts'

/** How long a download's address stays valid after the click, in milliseconds; the browser reads it soon after. */
const downloadMs = 60_000

/**
 * The host of a page in a browser.
 *
 * @param version the program's version, as the page was built
 */
export function createBrowserHost(window: Window & typeof globalThis, version: string): Host {
  const { document, navigator } = window
  const chosen = new ChosenFiles(document, window.crypto)
  return {
    describe: () => Promise.resolve(done({ kind: 'browser', version, platform: navigator.platform })),
    saveFile: ({ suggestedName, mediaType, bytes }) => {
      download(document, suggestedName, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: mediaType }))
      return Promise.resolve(done({ kind: 'saved', name: suggestedName }))
    },
    openFiles: async ({ accept, multiple, limitBytes }) => {
      const files = await pickFiles(document, { accept, multiple })
      return files.length === 0 ? done({ kind: 'cancelled' }) : readFiles(files, limitBytes)
    },
    chooseFiles: (argument) => chosen.chooseFiles(argument),
    chooseFolder: () => chosen.chooseFolder(),
    readChosenFile: (argument) => chosen.readChosenFile(argument),
    readChosenPart: (argument) => chosen.readChosenPart(argument),
    chooseDropFolder: noDropFolder,
    findDropFolder: noDropFolder,
    leaveDropFolder: noDropFolder,
    listDropFolder: noDropFolder,
    readDropFile: noDropFolder,
    chooseLog: noFollowing,
    listLogs: () => Promise.resolve(done([])),
    forgetLog: noFollowing,
    followLog: noFollowing,
    readFollowed: noFollowing,
    stopFollowing: noFollowing,
    takeArrivals: () => Promise.resolve(done([])),
    openAddress: ({ address }) => Promise.resolve(openAddress(window, address)),
    openOriginal: (argument) => Promise.resolve(handOutOriginal(document, argument)),
    copyText: ({ text }) => copyText(navigator, text),
    readClipboard: () => readClipboard(navigator.clipboard),
    findClipboardAddress: () => Promise.resolve(done({ address: null })),
    beginRewriting: noRewriting,
    writeRewriting: noRewriting,
    finishRewriting: noRewriting,
    leaveRewriting: noRewriting,
    findRewriting: () => Promise.resolve(done({ kind: 'none' })),
    readRewriting: noRewriting,
    endRewriting: noRewriting,
    printPage: ({ suggestedName }) => printPage(window, suggestedName),
    newWindow: () => Promise.resolve(openWindow(window)),
    readyToClose: () => Promise.resolve(done(null)),
    onCloseRequested: (listener) => onLeaving(window, listener),
    onArrived: neverTold,
    onDropFolderChanged: neverTold,
  }
}

/** A browser gives no page a folder to watch, so this is for the program's own window. */
function noDropFolder(): Promise<HostFailure> {
  const sentence =
    'A drop folder needs the Stillroom program: a browser does not let a page watch a folder. Nothing was changed. Add the files with “Choose files” or “Choose a folder”, or drop them here.'
  return Promise.resolve(failed('unsupported', sentence))
}

/** Nor does it give a file that another program still writes: what was chosen cannot be read once it has changed. */
function noFollowing(): Promise<HostFailure> {
  const sentence =
    'Following a log needs the Stillroom program: a browser does not let a page read a file while it is written. Nothing was changed. Take the log in as a file once it is finished.'
  return Promise.resolve(failed('unsupported', sentence))
}

/** A page cannot delete the files that a browser keeps its storage in, so this is for the program's own window. */
function noRewriting(): Promise<HostFailure> {
  const sentence =
    'Rewriting the store needs the Stillroom program: a page cannot reach the browser’s files. Nothing was changed. To do it by hand, save every lab to a file, clear the site’s data in the settings of the browser, and bring the files in again.'
  return Promise.resolve(failed('unsupported', sentence))
}

function neverTold(): () => void {
  return () => undefined
}

function download(document: Document, name: string, blob: Blob): void {
  const address = URL.createObjectURL(blob)
  const anchor = document.createElement('a')
  anchor.href = address
  anchor.download = name
  anchor.click()
  setTimeout(() => URL.revokeObjectURL(address), downloadMs)
}

async function readFiles(
  files: readonly File[],
  limit: number,
): Promise<HostResult<{ kind: 'opened'; files: OpenedFile[] }>> {
  const opened: OpenedFile[] = []
  for (const file of files) {
    const read = await readFile(file, file.name, limit)
    if (!read.ok) return read
    opened.push(read.value)
  }
  return done({ kind: 'opened', files: opened })
}

async function copyText(navigator: Navigator, text: string): Promise<HostResult<null>> {
  try {
    await navigator.clipboard.writeText(text)
    return done(null)
  } catch {
    const sentence =
      'The browser did not let the text be copied. Nothing was lost: select the text and copy it with the keyboard.'
    return failed('not copied', sentence)
  }
}

/** A page whose browser never says that printing is over is let go after this time, in milliseconds. */
const printMs = 120_000

/** The browser's dialog asks for printer, paper and place. Its PDF is named by the page's title. */
async function printPage(
  window: Window,
  suggestedName: string,
): Promise<HostResult<HostAnswer<'printPage'>>> {
  const { document } = window
  const title = document.title
  const over = new Promise<void>((resolve) => {
    window.addEventListener('afterprint', () => resolve(), { once: true })
    window.setTimeout(resolve, printMs)
  })
  document.title = suggestedName.replace(/\.pdf$/, '')
  try {
    window.print()
    await over
  } finally {
    document.title = title
  }
  return done({ kind: 'handed over' })
}

function openWindow(window: Window): HostResult<null> {
  // With "noopener" the browser answers null also when the window did open, so that cannot be told from a refusal.
  window.open(window.location.href, '_blank', 'noopener')
  return done(null)
}

function openAddress(window: Window, text: string): HostResult<null> {
  const address = maybeWebAddress(text)
  if (address === undefined) return failed('not opened', notWebAddress)
  window.open(address, '_blank', 'noopener,noreferrer')
  return done(null)
}

/** A page cannot start another program, so the original goes where downloads go; the person opens it from there. */
function handOutOriginal(
  document: Document,
  { bytes, name }: HostArgument<'openOriginal'>,
): HostResult<HostAnswer<'openOriginal'>> {
  const openable = maybeOpenable(bytes)
  if (openable === undefined) return failed('unsupported', notOpenable(name))
  const handedOut = plainFileWords(name) + openable.ending
  download(document, handedOut, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: openable.mediaType }))
  return done({ kind: 'downloaded', name: handedOut })
}

/** A browser does not wait at the end, so the screen is told early: whenever the page is hidden, and when it goes. */
function onLeaving(window: Window, listener: () => Promise<void>): () => void {
  const onHide = (): void => void listener()
  const onVisibility = (): void => {
    if (window.document.visibilityState === 'hidden') onHide()
  }
  window.addEventListener('pagehide', onHide)
  window.document.addEventListener('visibilitychange', onVisibility)
  return () => {
    window.removeEventListener('pagehide', onHide)
    window.document.removeEventListener('visibilitychange', onVisibility)
  }
}
