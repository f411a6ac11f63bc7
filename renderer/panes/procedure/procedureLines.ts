/** The lines of the menus of the procedure as a whole. */
import type { Workspace } from '../../store/workspace.ts'
import { lineOfCoverage } from '../../coverage/index.ts'
import { lineOfDraft } from '../../draft/index.ts'
import { lineOfFetches } from '../../fetches/index.ts'
import { openParameterForm } from '../../parameters/index.ts'
import { lineOfReview } from '../../review/index.ts'
import { showVersions } from '../../versions/index.ts'
import type { MenuLine } from '../../ui/index.ts'
import {
  NoticeIcon,
  ParameterIcon,
  PartHeadingIcon,
  PlaceIcon,
  TraceIcon,
  VersionIcon,
} from '../../ui/icons.tsx'
import { addStepAtEnd, openOwnPart } from './acts.ts'
import { ownPartIcons } from './ownPartIcons.ts'
import { keepMarks } from './keptMarks.ts'
import { setPane, usePane, type MarksShow } from './paneStore.ts'
import { missingOwnKinds, type ShownProcedure } from './shown.ts'
import { wordOfOwnPart } from './words.ts'

/** What can be added to a procedure beside a step. */
export function linesOfAddingTo(workspace: Workspace, shown: ShownProcedure): MenuLine[] {
  return [
    {
      id: 'section',
      word: 'Section',
      icon: PartHeadingIcon,
      hint: 'a heading over steps',
      onChoose: () => void addStepAtEnd(workspace, shown.id, 'section'),
    },
    {
      id: 'place',
      word: shown.place ? 'Change where it begins…' : 'Where it begins…',
      icon: PlaceIcon,
      hint: 'machine, user, directory',
      onChoose: () => setPane({ placing: 'start' }),
    },
    {
      id: 'parameter',
      word: 'Parameter…',
      icon: ParameterIcon,
      hint: 'a value that is asked for',
      onChoose: () => openParameterForm({ kind: 'make', procedure: shown.id, selected: null }),
    },
    {
      id: 'versions',
      word: 'Version…',
      icon: VersionIcon,
      hint: 'marked, read, compared',
      onChoose: () => showVersions(workspace, shown.id),
    },
    { kind: 'rule', id: 'r' },
    ...missingOwnKinds(shown).map((kind) => ({
      id: kind,
      word: wordOfOwnPart[kind],
      icon: ownPartIcons[kind],
      onChoose: () => void openOwnPart(workspace, shown.id, kind),
    })),
  ]
}

const markWords = {
  'at the cursor': 'Markdown’s marks only at the cursor',
  always: 'Markdown as it is typed',
} as const satisfies Record<MarksShow, string>

/** What can be done with a procedure as a whole, and how its texts are typed. */
export function linesOfProcedure(workspace: Workspace, shown: ShownProcedure): MenuLine[] {
  const { marksShow } = usePane.getState()
  return [
    { kind: 'heading', id: 'add', word: 'Add' },
    ...linesOfAddingTo(workspace, shown),
    { kind: 'heading', id: 'journal', word: 'From the journal' },
    lineOfDraft(workspace),
    lineOfCoverage(workspace, shown.id),
    {
      id: 'trace',
      word: 'Trace it as a whole',
      icon: TraceIcon,
      onChoose: () => workspace.set({ traced: { kind: 'procedure', id: shown.id } }),
    },
    { kind: 'heading', id: 'before', word: 'Before it is followed' },
    lineOfReview(workspace),
    lineOfFetches(workspace, shown.id),
    { kind: 'heading', id: 'typing', word: 'While a text is typed' },
    ...(['at the cursor', 'always'] as const).map((choice) => ({
      id: choice,
      word: markWords[choice],
      isChosen: choice === marksShow,
      onChoose: () => keepMarks(workspace, choice),
    })),
    { kind: 'rule', id: 'help' },
    {
      id: 'keys',
      word: 'Keys of the procedure',
      icon: NoticeIcon,
      onChoose: () => workspace.set({ panel: { kind: 'help', page: 'keys of the procedure' } }),
    },
  ]
}
