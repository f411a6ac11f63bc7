/** The heading of a section, a row of its own. */
import { plainWords } from '../../../shared/markdown/words.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { useDrop } from './LandingPlaces.tsx'
import { FromButtons } from './FromButtons.tsx'
import { linesOfPart } from './lines.ts'
import { MenuButton } from './MenuButton.tsx'
import { PartEditor } from './PartEditor.tsx'
import { PartText } from './PartText.tsx'
import { setPane } from './paneStore.ts'
import { keysOfSection, onRowKey } from './rowKeys.ts'
import { RowTools } from './RowTools.tsx'
import type { StepItemProps } from './StepItem.tsx'
import { nameOfPart } from './words.ts'

export function SectionItem({
  shown,
  title,
  isCurrent,
  isChosen,
  editing,
  marks,
  line,
  isPicked,
  isMoving,
  at,
  of,
}: StepItemProps) {
  const { step, parts } = shown
  const workspace = useWorkspace()
  const heading = parts.find(({ part }) => part.kind === 'heading')
  const words = plainWords(heading?.text ?? '', 60)
  const name = words === '' ? 'section without a name' : `section “${words}”`
  const { isOver, ...dropping } = useDrop({ at: 'new step', procedure: step.procedure, after: step.id })
  const tabIndex = isCurrent ? 0 : -1
  const classes = [
    'st-row-section',
    isChosen ? 'st-step--chosen' : '',
    isPicked ? 'st-step--picked' : '',
    isMoving ? 'st-step--moving' : '',
    isOver ? 'st-step--over' : '',
  ]
  return (
    <li
      role="listitem"
      className={classes.filter((one) => one !== '').join(' ')}
      aria-label={`${name.charAt(0).toUpperCase()}${name.slice(1)}${isPicked ? ', chosen' : ''}`}
      aria-keyshortcuts={keysOfSection}
      aria-posinset={at ?? undefined}
      aria-setsize={of ?? undefined}
      data-step={step.id}
      data-line={line ?? undefined}
      tabIndex={tabIndex}
      onFocus={() => setPane({ current: step.id })}
      onKeyDown={(event) => onRowKey(event, workspace, shown)}
      {...dropping}
    >
      <RowTools shown={shown} name={name} tabIndex={tabIndex} />
      {heading ? (
        <div className="st-section-heading" role="heading" aria-level={3}>
          {editing === heading.part.id ? (
            <div className="st-part-typing">
              <PartEditor
                part={heading.part}
                name={nameOfPart('heading', '')}
                title={title}
                marks={marks?.part === heading.part.id ? marks.ranges : undefined}
              />
            </div>
          ) : (
            <PartText
              part={heading.part}
              text={heading.text}
              name={nameOfPart('heading', '')}
              title={title}
              marks={marks?.part === heading.part.id ? marks.ranges : undefined}
              className="st-section-words"
              tabIndex={tabIndex}
            />
          )}
        </div>
      ) : null}
      {heading && heading.links.length > 0 ? (
        <div className="st-part-tools">
          <FromButtons shown={heading} tabIndex={tabIndex} />
          <MenuButton
            label="More for the heading"
            lines={() => linesOfPart(workspace, heading, title)}
            tabIndex={tabIndex}
          />
        </div>
      ) : null}
    </li>
  )
}
