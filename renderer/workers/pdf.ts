/** What reading PDFs needs in the page: a worker for the parser, and the package's tables from our own origin. */
import type { PdfWays, PdfWorker } from '../../shared/intake/pdf/open.ts'

const files = import.meta.glob<string>('../../node_modules/pdfjs-dist/cmaps/*.bcmap', {
  query: '?url',
  import: 'default',
  eager: true,
})
const addresses = new Map(
  Object.entries(files).map(([path, address]) => [path.replace(/^.*\//u, ''), address]),
)

async function readTable(file: string): Promise<Uint8Array> {
  const address = addresses.get(file)
  if (address === undefined) throw new Error(`no table ${file}`)
  const answer = await fetch(address)
  if (!answer.ok) throw new Error(`table ${file}: ${answer.status}`)
  return new Uint8Array(await answer.arrayBuffer())
}

const startWorker = (): PdfWorker =>
  new Worker(new URL('./pdf.worker.ts', import.meta.url), { type: 'module' })

/** The ways for a worker of ours; the parser then runs in another one beside it. */
export function pdfWays(onPage: (at: number, of: number) => void): PdfWays {
  return { startWorker, readTable, onPage }
}
