/** One part of a step: its label, where it came from, its text. */
import { memo } from 'react'
import type { Range, StepPartKind } from '../../../shared/lab/model.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { PartLabel } from '../../ui/index.ts'
import { missingIn } from '../../../shared/safety/signal-words/caution.ts'
import { cautionFromMarkdown, signalWordOf } from '../../../shared/safety/signal-words/markdown.ts'
import { CautionHead } from './CautionHead.tsx'
import { wordsOfMissing } from './cautions.ts'
import { FileHead } from './FileHead.tsx'
import { FromButtons } from './FromButtons.tsx'
import { linesOfPart } from './lines.ts'
import { MenuButton } from './MenuButton.tsx'
import { PartEditor } from './PartEditor.tsx'
import { PartText } from './PartText.tsx'
import { usePane } from './paneStore.ts'
import { isSamePart, type ShownPart } from './shown.ts'
import { classOfPart, nameOfPart } from './words.ts'

/** What a caution lacks to be whole. */
function StillToSay({ text }: { readonly text: string }) {
  if (text.trim() === '') return null
  const words = wordsOfMissing(missingIn(cautionFromMarkdown(text)))
  return words === '' ? null : <p className="st-still">{words}</p>
}

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
    const signal = kind === 'caution' ? signalWordOf(shown.text) : null
    const { file } = shown.part
    const isCut = usePane(({ cut }) => cut?.kind === 'part' && cut.part === shown.part.id)
    return (
      <div className={isCut ? `${classOfPart(kind, signal)} st-part--cut` : classOfPart(kind, signal)}>
        <div className="st-part-head">
          {kind === 'caution' ? (
            <CautionHead part={shown.part} signal={signal} tabIndex={tabIndex} />
          ) : (
            <PartLabel kind={kind} />
          )}
          <div className="st-part-tools">
            <FromButtons shown={shown} tabIndex={tabIndex} />
            <MenuButton
              label={`More for ${name.charAt(0).toLowerCase()}${name.slice(1)}`}
              lines={() => linesOfPart(workspace, shown, title)}
              tabIndex={tabIndex}
            />
          </div>
        </div>
        {file ? <FileHead part={shown.part} file={file} tabIndex={tabIndex} /> : null}
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
        {kind === 'caution' && !isEditing ? <StillToSay text={shown.text} /> : null}
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
