/** Files of bookmarks: the person is asked first, then the links come in without holding up anything else. */
import type { ProjectId } from '../../../../shared/lab/ids.ts'
import type { OpenLab } from '../../../db/lab.ts'
import type { Workspace } from '../../../store/workspace.ts'
import type { TakenBookmarks } from '../intakeQueue.ts'
import { countFolders, pagesOf, toBookmarksChange, type Pause } from './bookmarks.ts'
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

/** Adds the links, all or only those to pages that the lab does not have, as one Change. */
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
  const made = await toBookmarksChange(lab.surroundings, all, project, pages, leavesKnown, pause)
  board.changeQuestion(question.id, 0.5)
  const isChange = made.change.operations.length > 0
  const result = isChange ? await lab.committer.commit(made.change) : ({ ok: true } as const)
  await workspace.catchUp()
  if (!result.ok) {
    board.changeQuestion(question.id, null)
    return workspace.say('problem', result.sentence)
  }
  board.dropQuestion(question.id)
  board.addReport({
    id: board.nextId(),
    name: question.name,
    things: pages.length,
    added: made.added,
    known: { pages: made.known, enriched: made.enriched },
    lines: [],
    changes: isChange ? [made.change.id] : [],
    placed: [],
    isInFolders: false,
    notes: question.bookmarks.notes,
    wasTakenBack: false,
  })
}
