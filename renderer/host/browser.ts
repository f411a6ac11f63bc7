/** The screen's host in a plain browser window: files go out as downloads and come in through the file picker. */
import { done, failed, refusedFile, type Host, type HostResult, type OpenedFile } from '../../shared/host.ts'

/** How long a download's address stays valid after the click, in milliseconds; the browser reads it soon after. */
const downloadMs = 60_000

/**
 * The host of a page in a browser.
 *
 * @param version the program's version, as the page was built
 */
export function createBrowserHost(window: Window & typeof globalThis, version: string): Host {
  const { document, navigator } = window
  return {
    describe: () => Promise.resolve(done({ kind: 'browser', version, platform: navigator.platform })),
    saveFile: ({ suggestedName, mediaType, bytes }) => {
      download(document, suggestedName, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: mediaType }))
      return Promise.resolve(done({ kind: 'saved', name: suggestedName }))
    },
    openFiles: async ({ accept, multiple, limitBytes }) => {
      const files = await chooseFiles(document, accept, multiple)
      return files.length === 0 ? done({ kind: 'cancelled' }) : readFiles(files, limitBytes)
    },
    copyText: ({ text }) => copyText(navigator, text),
    newWindow: () => Promise.resolve(openWindow(window)),
    readyToClose: () => Promise.resolve(done(null)),
    onCloseRequested: (listener) => onLeaving(window, listener),
  }
}

function download(document: Document, name: string, blob: Blob): void {
  const address = URL.createObjectURL(blob)
  const anchor = document.createElement('a')
  anchor.href = address
  anchor.download = name
  anchor.click()
  setTimeout(() => URL.revokeObjectURL(address), downloadMs)
}

function chooseFiles(document: Document, accept: readonly string[], multiple: boolean): Promise<File[]> {
  const input = document.createElement('input')
  input.type = 'file'
  input.accept = accept.join(',')
  input.multiple = multiple
  input.hidden = true
  document.body.append(input)
  return new Promise<File[]>((resolve) => {
    input.addEventListener('change', () => resolve([...(input.files ?? [])]), { once: true })
    input.addEventListener('cancel', () => resolve([]), { once: true })
    input.click()
  }).finally(() => input.remove())
}

async function readFiles(
  files: readonly File[],
  limit: number,
): Promise<HostResult<{ kind: 'opened'; files: OpenedFile[] }>> {
  const opened: OpenedFile[] = []
  for (const file of files) {
    if (file.size > limit) {
      opened.push(refusedFile(file.name, file.size, limit))
      continue
    }
    try {
      opened.push({ kind: 'read', name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })
    } catch {
      const sentence = `“${file.name}” could not be read. Nothing in the lab was changed. See whether the file is still there.`
      return failed('not read', sentence)
    }
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

function openWindow(window: Window): HostResult<null> {
  // With "noopener" the browser answers null also when the window did open, so that cannot be told from a refusal.
  window.open(window.location.href, '_blank', 'noopener')
  return done(null)
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
