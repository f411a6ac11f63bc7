/** Reading a PDF (ISO 32000) by pdf.js: its text with places, and what it says of itself. Nothing in it is run or fetched. */
import { maxPageRuns, maxPdfPages, maxPdfRuns } from '../limits.ts'
import type { OutlineItem, Run } from './page.ts'
import { MonoFonts, PageRuns, type Content } from './runs.ts'

/** A worker that runs `pdfjs-dist/legacy/build/pdf.worker.mjs`. */
export interface PdfWorker {
  terminate(): void
}

/** What reading a PDF needs of the place where it runs. */
export interface PdfWays {
  /** Starts the parser away from the caller. Left out in Node, where pdf.js runs it beside the caller. */
  readonly startWorker?: () => PdfWorker
  /** Gives one of the package's tables (`UniJIS-UTF16-H.bcmap`) for fonts whose characters nothing else tells; they are
   * frequent in Chinese, Japanese and Korean. Without it such words are missing. */
  readonly readTable?: (file: string) => Promise<Uint8Array>
  /** Told before each page is read: its place from 1 on, and how many there are. */
  readonly onPage?: (at: number, of: number) => void
}

export interface RawPdf {
  readonly ok: true
  readonly pages: readonly (readonly Run[])[]
  /** Places, from 1 on, of the pages that could not be read. */
  readonly unread: readonly number[]
  readonly labels: readonly string[] | null
  readonly info: Readonly<Record<string, unknown>>
  readonly outline: readonly OutlineItem[]
}

export interface PdfFailure {
  readonly ok: false
  readonly code: 'locked' | 'broken' | 'too-slow' | 'too-many-pages' | 'too-much-text'
  /** How many, where there are too many. */
  readonly count: number
}

/** No page may take longer, in milliseconds. */
const longestPage = 30_000

interface PdfPage {
  readonly rotate: number
  getViewport(options: { scale: number }): { readonly transform: readonly number[] }
  streamTextContent(): {
    getReader(): { read(): Promise<{ done: boolean; value?: Content }>; cancel(reason: Error): Promise<void> }
  }
  cleanup(): void
}
interface Node {
  readonly title: string
  readonly dest: string | readonly unknown[] | null
  readonly items: readonly Node[]
}
interface PdfDocument {
  readonly numPages: number
  getPage(at: number): Promise<PdfPage>
  getPageLabels(): Promise<readonly string[] | null>
  getMetadata(): Promise<{ readonly info: Readonly<Record<string, unknown>> }>
  getOutline(): Promise<readonly Node[] | null>
  getDestination(name: string): Promise<readonly unknown[] | null>
  getPageIndex(ref: unknown): Promise<number>
}
/** The part of pdf.js that is needed here; its own types are made for pages with a document. */
interface PdfLibrary {
  readonly getDocument: (options: Readonly<Record<string, unknown>>) => Loading
  readonly PDFWorker: { create(options: { port: PdfWorker; verbosity: number }): { destroy(): void } }
}
interface Loading {
  readonly promise: Promise<PdfDocument>
  destroy(): Promise<void>
}

/** Reads all pages. Expected failures are values; the bytes are left as they are. */
export async function readPdf(bytes: Uint8Array, ways: PdfWays): Promise<RawPdf | PdfFailure> {
  const { getDocument, PDFWorker } =
    (await import('pdfjs-dist/legacy/build/pdf.mjs')) as unknown as PdfLibrary
  const port = ways.startWorker?.()
  const worker = port && PDFWorker.create({ port, verbosity: 0 })
  const loading = getDocument({
    // It is handed over to the parser, so it must be a copy.
    data: bytes.slice(),
    ...(worker ? { worker } : {}),
    BinaryDataFactory: tablesBy(ways.readTable),
    cMapUrl: './',
    cMapPacked: true,
    disableFontFace: true,
    enableXfa: false,
    isEvalSupported: false,
    isImageDecoderSupported: false,
    isOffscreenCanvasSupported: false,
    useSystemFonts: true,
    useWasm: false,
    useWorkerFetch: false,
    verbosity: 0,
  })
  try {
    return await readDocument(await withinTime(loading.promise, longestPage), ways)
  } catch (error) {
    if (error instanceof Error && error.name === 'PasswordException')
      return { ok: false, code: 'locked', count: 0 }
    // Whatever else a broken file leads the parser into, it is the file that is broken.
    return { ok: false, code: error instanceof TooSlow ? 'too-slow' : 'broken', count: 0 }
  } finally {
    void loading.destroy().catch(() => undefined)
    worker?.destroy()
    port?.terminate()
  }
}

function tablesBy(read: PdfWays['readTable']): unknown {
  return class {
    async fetch({ kind, filename }: { kind: string; filename: string }): Promise<Uint8Array> {
      if (kind !== 'cMapUrl' || !read) throw new Error(`${kind} is not needed for text`)
      return read(filename)
    }
  }
}

async function readDocument(document: PdfDocument, ways: PdfWays): Promise<RawPdf | PdfFailure> {
  const of = document.numPages
  if (of > maxPdfPages) return { ok: false, code: 'too-many-pages', count: of }
  const pages: (readonly Run[])[] = []
  const unread: number[] = []
  const mono = new MonoFonts()
  let runs = 0
  for (let at = 1; at <= of; at += 1) {
    ways.onPage?.(at, of)
    const page = await readPage(document, at, mono, maxPdfRuns - runs)
    if (page === 'too-much') return { ok: false, code: 'too-much-text', count: maxPdfRuns }
    if (page === 'broken') unread.push(at)
    const found = page === 'broken' ? [] : page
    runs += found.length
    pages.push(found)
  }
  const labels = await document.getPageLabels().catch(() => null)
  const { info } = await document.getMetadata().catch(() => ({ info: {} }))
  const isMono = (run: Run): boolean => mono.has(run.font)
  return {
    ok: true,
    pages: pages.map((page) => page.map((run) => ({ ...run, isMono: isMono(run) }))),
    unread,
    labels,
    info,
    outline: await readOutline(document),
  }
}

async function readPage(
  document: PdfDocument,
  at: number,
  mono: MonoFonts,
  most: number,
): Promise<readonly Run[] | 'broken' | 'too-much'> {
  try {
    const page = await withinTime(document.getPage(at), longestPage)
    const runs = new PageRuns(page.getViewport({ scale: 1 }).transform, mono)
    const reader = page.streamTextContent().getReader()
    for (;;) {
      const { done, value } = await withinTime(reader.read(), longestPage)
      if (value) runs.add(value)
      if (runs.count > Math.min(most, maxPageRuns)) {
        await reader.cancel(new Error('too much text'))
        return runs.count > most ? 'too-much' : 'broken'
      }
      if (done) break
    }
    page.cleanup()
    return runs.toRuns()
  } catch (error) {
    if (error instanceof TooSlow) throw error
    return 'broken'
  }
}

/** So many parts of an outline are looked at. */
const maxOutline = 5000

async function readOutline(document: PdfDocument): Promise<readonly OutlineItem[]> {
  const items: OutlineItem[] = []
  const roots = await document.getOutline().catch(() => null)
  const waiting = (roots ?? []).map((node) => ({ node, depth: 1 })).reverse()
  for (let one = waiting.pop(); one && items.length < maxOutline; one = waiting.pop()) {
    const { node, depth } = one
    const page = await maybePageOf(document, node.dest)
    if (page !== undefined && typeof node.title === 'string') items.push({ title: node.title, page, depth })
    if (depth < 20)
      for (const child of [...node.items].reverse()) waiting.push({ node: child, depth: depth + 1 })
  }
  return items
}

async function maybePageOf(document: PdfDocument, dest: Node['dest']): Promise<number | undefined> {
  try {
    const place = typeof dest === 'string' ? await document.getDestination(dest) : dest
    const ref = place?.[0]
    if (typeof ref === 'number') return ref
    return ref ? await document.getPageIndex(ref) : undefined
  } catch {
    return undefined
  }
}

class TooSlow extends Error {}

/** Stand in every runtime that this program uses, but not in ECMAScript's own library. */
const { setTimeout, clearTimeout } = globalThis as unknown as {
  setTimeout: (run: () => void, ms: number) => number
  clearTimeout: (id: number) => void
}

async function withinTime<T>(promise: Promise<T>, ms: number): Promise<T> {
  let id = 0
  const late = new Promise<never>((_, reject) => {
    id = setTimeout(() => reject(new TooSlow()), ms)
  })
  return Promise.race([promise, late]).finally(() => clearTimeout(id))
}
