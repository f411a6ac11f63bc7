/** One part of a step: its label, where it came from, its text. */
import { memo } from 'react'
import type { Range, StepPartKind } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { PartLabel } from '../../ui/index.ts'
import { FromButtons } from './FromButtons.tsx'
import { linesOfPart } from './lines.ts'
import { MenuButton } from './MenuButton.tsx'
import { PartEditor } from './PartEditor.tsx'
import { PartText } from './PartText.tsx'
import { isSamePart, type ShownPart } from './shown.ts'
import { classOfPart, nameOfPart } from './words.ts'

export interface PartItemProps {
  readonly shown: ShownPart
  /** Of the step. */
  readonly number: string
  /** The procedure's title. */
  readonly title: string
  readonly isEditing: boolean
  readonly marks: readonly Range[] | undefined
  /** Whether Tab stops at what is in the part. */
  readonly isInReach: boolean
}

export const PartItem = memo(
  function PartItem({ shown, number, title, isEditing, marks, isInReach }: PartItemProps) {
    const workspace = useWorkspace()
    const kind = shown.part.kind as StepPartKind
    const name = nameOfPart(kind, number)
    const tabIndex = isInReach ? 0 : -1
    return (
      <div className={classOfPart(kind)}>
        <div className="st-part-head">
          <PartLabel kind={kind} />
          <div className="st-part-tools">
            <FromButtons shown={shown} tabIndex={tabIndex} />
            <MenuButton
              label={`More for ${name.charAt(0).toLowerCase()}${name.slice(1)}`}
              lines={() => linesOfPart(workspace, shown, title)}
              tabIndex={tabIndex}
            />
          </div>
        </div>
        {isEditing ? (
          <div className="st-part-text st-part-typing">
            <PartEditor part={shown.part} name={name} title={title} marks={marks} />
          </div>
        ) : (
          <PartText
            part={shown.part}
            text={shown.text}
            name={name}
            title={title}
            marks={marks}
            className="st-part-text st-prose"
            tabIndex={tabIndex}
          />
        )}
      </div>
    )
  },
  (a, b) =>
    isSamePart(a.shown, b.shown) &&
    a.number === b.number &&
    a.title === b.title &&
    a.isEditing === b.isEditing &&
    a.marks === b.marks &&
    a.isInReach === b.isInReach,
)
