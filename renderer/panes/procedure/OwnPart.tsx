/** The procedure's own parts, its title and its purpose, edited in place. */
import { useWorkspace } from '../../store/useWorkspace.ts'
import { FromButtons } from './FromButtons.tsx'
import { linesOfPart } from './lines.ts'
import type { PartMarks } from './marks.ts'
import { MenuButton } from './MenuButton.tsx'
import { PartEditor } from './PartEditor.tsx'
import { PartText } from './PartText.tsx'
import { usePane } from './paneStore.ts'
import type { ShownPart } from './shown.ts'
import { nameOfPart } from './words.ts'

export interface OwnPartProps {
  readonly shown: ShownPart
  readonly title: string
  readonly marks: PartMarks | null
}

export function OwnPart({ shown, title, marks }: OwnPartProps) {
  const workspace = useWorkspace()
  const { part, text } = shown
  const isEditing = usePane((state) => state.editing === part.id)
  const name = nameOfPart(part.kind, 0)
  const ranges = marks?.part === part.id ? marks.ranges : undefined
  const className = part.kind === 'title' ? 'st-procedure-title' : 'st-procedure-purpose st-prose'
  return (
    <div className="st-own-part">
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
        <FromButtons shown={shown} tabIndex={0} />
        <MenuButton label={`More for the ${part.kind}`} lines={() => linesOfPart(workspace, shown, title)} />
      </div>
    </div>
  )
}
