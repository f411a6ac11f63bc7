/** What the journal offers to be found by its words, beside its menu: writing, filtering, and what the current entry's menu holds. */
import { unfoldPane } from '../../frame/index.ts'
import { momentOf } from '../../../shared/journal/entry-facts.ts'
import { entryKinds } from '../../../shared/lab/model.ts'
import { useOffered, type Offer } from '../../store/offers.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { entryKindFaces, type MenuLine } from '../../ui/index.ts'
import { JournalIcon, SearchIcon, SourcePictureIcon } from '../../ui/icons.tsx'
import { COMPOSER_KEYS } from './composerKeys.ts'
import type { ComposerModel } from './composerModel.ts'
import { linesOfEntry } from './EntryMenu.tsx'
import type { JournalStore } from './journalState.ts'
import { openPhotos } from './pictures/photos.ts'
import { timeOf } from './rows.ts'

export function useOfferedActs(model: ComposerModel, store: JournalStore): void {
  const workspace = useWorkspace()
  useOffered(() => ({
    about: 'Journal',
    lines: [
      ...linesOfWriting(model),
      {
        id: 'filter',
        word: 'Filter the journal',
        icon: SearchIcon,
        onChoose: () => {
          unfoldPane('journal')
          store.setState({ isFilterShown: true })
        },
      },
      {
        id: 'photos',
        word: 'Add photos…',
        icon: SourcePictureIcon,
        onChoose: () => openPhotos(workspace, []),
      },
    ],
  }))
  useOffered((): Offer | null => {
    const { view } = workspace.state
    const { current } = store.getState()
    const entry = current === null ? undefined : view?.entries.get(current)
    if (!view || !entry) return null
    const at = timeOf(momentOf(entry, view.marks.get(entry.id)))
    return {
      about: `Entry of ${at}`,
      lines: linesOfEntry(workspace, store, entry, view.withdrawn.has(entry.id)),
    }
  })
}

function linesOfWriting(model: ComposerModel): MenuLine[] {
  const write = (): void => {
    unfoldPane('journal')
    model.focus()
  }
  const kinds = entryKinds.map((kind): MenuLine => {
    const { word, icon, digit } = entryKindFaces[kind]
    return {
      id: `write ${kind}`,
      word: `Write: ${word}`,
      icon,
      hint: `Alt+${digit}`,
      onChoose: () => {
        model.choose(kind)
        write()
      },
    }
  })
  return [
    { id: 'write', word: 'Write an entry', icon: JournalIcon, hint: COMPOSER_KEYS, onChoose: write },
    ...kinds,
  ]
}
