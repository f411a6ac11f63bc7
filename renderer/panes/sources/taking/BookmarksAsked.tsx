import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, ProgressLine } from '../../../ui/index.ts'
import { CloseIcon, NoticeIcon } from '../../../ui/icons.tsx'
import { takingOf, type Place } from '../taking.ts'
import { addBookmarks } from './askingBookmarks.ts'
import type { BookmarksQuestion } from './outcomes.ts'

const counted = (count: number, one: string, many: string): string =>
  `${count.toLocaleString('en')} ${count === 1 ? one : many}`

/** The links of a browser: which of them are to come in. */
export function BookmarksAsked({ question }: { readonly question: BookmarksQuestion<Place> }) {
  const workspace = useWorkspace()
  const { board } = takingOf(workspace)
  const { name, bookmarks, folders, fresh, share } = question
  const size = `${counted(bookmarks.links.length, 'link', 'links')} in ${counted(folders, 'folder', 'folders')}`
  const add = (leavesKnown: boolean) => void addBookmarks(workspace, board, question, leavesKnown)
  if (share !== null)
    return (
      <div className="st-intake-now">
        <ProgressLine words={`Adding the links of ${name}`} share={share} />
        <Button
          look="quiet"
          label={`Cancel adding the links of ${name}`}
          onClick={() => board.stop(question.id)}
        >
          Cancel
        </Button>
      </div>
    )
  return (
    <section className="st-taken" aria-label={`Links of ${name}`}>
      <NoticeIcon />
      <div className="st-taken-words">
        <p>
          “{name}” holds {size}. {fresh.toLocaleString('en')} of these pages are not here yet.
        </p>
        {bookmarks.notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
        <div className="st-button-row">
          <Button onClick={() => add(false)}>Add them all</Button>
          <Button onClick={() => add(true)}>Only those that are not here yet</Button>
        </div>
        <p className="st-taken-hint">
          No page is added twice: one that is here already gets the folders and tags.
        </p>
      </div>
      <Button
        look="quiet"
        icon={CloseIcon}
        label={`Leave the links of ${name}`}
        onClick={() => board.dropQuestion(question.id)}
      />
    </section>
  )
}
