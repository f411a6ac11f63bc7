/** What stands between the start of a page and the opening of the store. */
import type { Root } from 'react-dom/client'
import type { Host } from '../../shared/host.ts'
import type { StorageFactory } from '../db/schema.ts'
import { readBack, writeOut } from './rewriting.ts'
import { RewritingScreen } from './RewritingScreen.tsx'

/** What the person is told once the labs are open. */
export interface RewritingNews {
  readonly isDone: boolean
  readonly sentence: string
}

/**
 * Does what is to be done for rewriting the store before it is opened. Resolves when it may be opened.
 * @param reload loads the page anew
 */
export async function passRewriting(
  root: Root,
  host: Host,
  storage: StorageFactory,
  reload: () => void,
): Promise<RewritingNews | null> {
  const found = await host.findRewriting()
  if (!found.ok || found.value.kind === 'none') return null
  const standing = found.value
  if (standing.kind === 'told') return { isDone: standing.isDone, sentence: standing.sentence }
  return new Promise((resolve) => {
    root.render(
      standing.kind === 'begun' ? (
        <RewritingScreen
          words="Writing all labs out"
          work={(onShare) => writeOut(host, storage, onShare)}
          way="Go back to the labs"
          onWay={() => resolve(null)}
        />
      ) : (
        <RewritingScreen
          words="Reading the labs back and comparing them"
          work={async (onShare) => {
            const news = await readBack(host, storage, standing.files, onShare)
            if (!news.isDone) return news.sentence
            resolve(news)
            return null
          }}
          way="Try again"
          onWay={reload}
        />
      ),
    )
  })
}
