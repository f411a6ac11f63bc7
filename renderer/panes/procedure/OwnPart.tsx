/** The procedure's own parts, from its title to how all of it is undone, edited in place. */
import type { ProcedurePartKind } from '../../../shared/lab/model.ts'
import { FindingsAt } from '../../review/index.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { FromButtons } from './FromButtons.tsx'
import { linesOfPart } from './lines.ts'
import type { PartMarks } from './marks.ts'
import { MenuButton } from './MenuButton.tsx'
import { PartEditor } from './PartEditor.tsx'
import { PartText } from './PartText.tsx'
import { usePane } from './paneStore.ts'
import type { ShownPart } from './shown.ts'
import { ownPartIcons } from './ownPartIcons.ts'
import { nameOfPart, wordOfOwnPart } from './words.ts'

export interface OwnPartProps {
  readonly shown: ShownPart
  readonly title: string
  readonly marks: PartMarks | null
}

export function OwnPart({ shown, title, marks }: OwnPartProps) {
  const workspace = useWorkspace()
  const { part, text } = shown
  const kind = part.kind as ProcedurePartKind
  const isEditing = usePane((state) => state.editing === part.id)
  const name = nameOfPart(kind, '')
  const ranges = marks?.part === part.id ? marks.ranges : undefined
  const isLabelled = kind !== 'title' && kind !== 'purpose'
  const className = isLabelled ? 'st-own-text st-prose' : classOf[kind]
  return (
    <div className={isLabelled ? 'st-own-part st-own-part--labelled' : 'st-own-part'}>
      {isLabelled ? (
        <h3 className="st-own-label">
          <OwnIcon kind={kind} />
          {wordOfOwnPart[kind]}
        </h3>
      ) : null}
      {isEditing ? (
        <div className={`${className} st-part-typing`}>
          <PartEditor part={part} name={name} title={title} marks={ranges} />
        </div>
      ) : (
        <PartText
          part={part}
          text={text}
          name={name}
          title={title}
          marks={ranges}
          className={className}
          tabIndex={0}
        />
      )}
      <div className="st-own-part-tools">
        <FindingsAt at={part.id} name={`the ${part.kind}`} tabIndex={0} />
        <FromButtons shown={shown} tabIndex={0} />
        <MenuButton label={`More for the ${part.kind}`} lines={() => linesOfPart(workspace, shown, title)} />
      </div>
    </div>
  )
}

const classOf = {
  title: 'st-procedure-title',
  purpose: 'st-procedure-purpose st-prose',
} as const

function OwnIcon({ kind }: { readonly kind: ProcedurePartKind }) {
  const Picture = ownPartIcons[kind]
  return Picture ? <Picture /> : null
}
