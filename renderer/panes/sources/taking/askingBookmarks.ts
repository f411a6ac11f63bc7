/** Files of bookmarks: the person is asked first, then the links come in without holding up anything else. */
import type { ChangeId, ProjectId } from '../../../../shared/lab/ids.ts'
import type { OpenLab } from '../../../db/lab.ts'
import type { Workspace } from '../../../store/workspace.ts'
import type { TakenBookmarks } from '../intakeQueue.ts'
import { countFolders, pagesOf, toBookmarksParts, type Pause } from './bookmarks.ts'
import { KnownSources } from './known.ts'
import type { BookmarksQuestion, OutcomeBoard } from './outcomes.ts'

interface Place {
  readonly lab: OpenLab
  readonly project: ProjectId
}

const pause: Pause = () => new Promise((resolve) => setTimeout(resolve, 0))

/** Puts the question beside the queue, where it waits as long as it must. */
export async function askAboutBookmarks<P extends Place>(
  workspace: Workspace,
  board: OutcomeBoard<P>,
  place: P,
  name: string,
  { links, notes }: TakenBookmarks,
): Promise<void> {
  const { labSources } = workspace.state
  const pages = await pagesOf(links, pause)
  const known = labSources && new KnownSources(labSources)
  let fresh = 0
  for (const [at, { address }] of pages.entries()) {
    if (at % 500 === 499) await pause()
    if (!known?.findByAddress(address)) fresh++
  }
  const bookmarks = { links, notes }
  board.ask({
    id: board.nextId(),
    name,
    place,
    bookmarks,
    folders: countFolders(links),
    fresh,
    share: null,
  })
}

/** Adds the links, all or only those to pages that the lab does not have, and reports what that came to. */
export async function addBookmarks<P extends Place>(
  workspace: Workspace,
  board: OutcomeBoard<P>,
  question: BookmarksQuestion<P>,
  leavesKnown: boolean,
): Promise<void> {
  const { lab, project } = question.place
  const all = workspace.state.lab === lab ? workspace.state.labSources : null
  if (!all)
    return workspace.say(
      'notice',
      `The links of “${question.name}” belong to another lab. Open that one to add them; they wait here.`,
    )
  board.changeQuestion(question.id, 0)
  const pages = await pagesOf(question.bookmarks.links, pause)
  const counts = { pages: 0, added: 0, known: 0, enriched: 0 }
  const changes: ChangeId[] = []
  for (const part of toBookmarksParts(lab.surroundings, all, project, pages, leavesKnown)) {
    if (board.wasStopped(question.id)) break
    if (part.change.operations.length > 0) {
      const result = await lab.committer.commit(part.change)
      if (!result.ok) {
        workspace.say('problem', result.sentence)
        break
      }
      changes.push(part.change.id)
    }
    for (const count of ['pages', 'added', 'known', 'enriched'] as const) counts[count] += part[count]
    board.changeQuestion(question.id, counts.pages / pages.length)
    await pause()
  }
  await workspace.catchUp()
  board.dropQuestion(question.id)
  const left = pages.length - counts.pages
  board.addReport({
    id: board.nextId(),
    name: question.name,
    isFew: false,
    things: pages.length,
    added: counts.added,
    known: { pages: counts.known, enriched: counts.enriched },
    lines: [],
    changes,
    placed: [],
    isInFolders: false,
    notes: [...question.bookmarks.notes, ...(left > 0 ? [leftOut(left)] : [])],
    wasTakenBack: false,
  })
}

function leftOut(count: number): string {
  return `${count.toLocaleString('en')} of the links were not gone through. Add the file again to take them in.`
}
