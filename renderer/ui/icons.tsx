/**
 * Icons by what they mean here, so that a pane never picks a picture of its own. One family (Phosphor, MIT licence),
 * set as a font. An icon never stands alone for a meaning: a word or a label
 * is always beside it, so every icon is hidden from assistive technology.
 */
import type { ComponentType, CSSProperties } from 'react'
import { glyphs, type GlyphName } from './glyphs.ts'

export type IconWeight = 'regular' | 'bold' | 'fill' | 'light'

export interface StillroomIconProps {
  /** Any CSS length; by default 1.2 of the text beside it. */
  readonly size?: string
  readonly weight?: IconWeight
  readonly className?: string
}
export type Icon = ComponentType<StillroomIconProps>

/**
 * A sign of the icon family, drawn as a character of its font: an SVG each would be a layer of its own to the browser,
 * which goes through all layers with every key that is typed.
 */
function asIcon(name: GlyphName, usual: IconWeight = 'regular'): Icon {
  return function StillroomIcon({ size, weight = usual, className }) {
    return (
      <span
        aria-hidden="true"
        className={classesOf(`st-glyph st-glyph--${weight}`, className)}
        data-glyph={glyphs[name]}
        style={styleOf(size)}
      />
    )
  }
}

function classesOf(own: string, className: string | undefined): string {
  return className === undefined ? `st-icon ${own}` : `st-icon ${own} ${className}`
}

const styleOf = (size: string | undefined): CSSProperties =>
  size === undefined ? {} : { fontSize: `calc(${size} / 1.2)` }

/** Signs that are drawn by the style sheet: dots in the ink of the words beside. */
function asDots(sign: 'handle' | 'more'): Icon {
  return function DotsIcon({ size, className }) {
    return (
      <span
        aria-hidden="true"
        className={classesOf(`st-dots st-dots--${sign}`, className)}
        style={styleOf(size)}
      />
    )
  }
}

export const KindActionIcon = asIcon('terminal')
export const KindOutputIcon = asIcon('text-align-left')
export const KindObservationIcon = asIcon('eye')
export const KindProblemIcon = asIcon('warning-diamond')
export const KindFixIcon = asIcon('wrench')
export const KindDecisionIcon = asIcon('signpost')
export const KindFileIcon = asIcon('file-code')
export const KindListIcon = asIcon('list-checks')
export const SucceededIcon = asIcon('check-circle')
export const FailedIcon = asIcon('x-circle')
export const UnknownIcon = asIcon('question')
export const CutIcon = asIcon('scissors')
export const PasteIcon = asIcon('clipboard')
export const JoinIcon = asIcon('arrows-in-line-vertical')
export const SplitIcon = asIcon('arrows-out-line-vertical')
export const PlaceIcon = asIcon('desktop-tower')
export const TimeIcon = asIcon('clock')
export const AdditionIcon = asIcon('arrow-bend-down-right')
export const SealIcon = asIcon('seal-check')
export const PartDoIcon = asIcon('hand')
export const PartExpectIcon = asIcon('target')
export const PartCautionIcon = asIcon('warning')
export const PartIfItFailsIcon = asIcon('git-fork')
export const PartWhyIcon = asIcon('lightbulb')
export const PartHeadingIcon = asIcon('text-t')
export const PartConditionIcon = asIcon('arrows-split')
export const PartDoneAlreadyIcon = asIcon('check-circle')
export const PartFileIcon = asIcon('file-code')
export const PartHoldIcon = asIcon('hand-palm')
export const PartUndoIcon = asIcon('arrow-u-up-left')
export const ParameterIcon = asIcon('brackets-square')
export const FillInIcon = asIcon('textbox')
export const ReviewIcon = asIcon('list-magnifying-glass')
export const VersionIcon = asIcon('flag')
export const RemarkIcon = asIcon('chat-text')
export const AccessIcon = asIcon('key')
export const CarryIcon = asIcon('arrow-right', 'bold')
export const TraceIcon = asIcon('path')
export const RibbonsIcon = asIcon('bezier-curve')
export const UndoIcon = asIcon('arrow-u-up-left')
export const RedoIcon = asIcon('arrow-u-up-right')
export const AddIcon = asIcon('plus', 'bold')
export const FoldLeftIcon = asIcon('caret-line-left')
export const FoldRightIcon = asIcon('caret-line-right')
export const DragHandleIcon = asDots('handle')
export const MoveUpIcon = asIcon('arrow-up', 'bold')
export const MoveDownIcon = asIcon('arrow-down', 'bold')
export const AmendIcon = asIcon('pencil-simple-line')
export const WithdrawIcon = asIcon('prohibit')
export const StrikeOutIcon = asIcon('eraser')
export const RemoveIcon = asIcon('minus')
export const ExportIcon = asIcon('export')
export const LabFileOutIcon = asIcon('box-arrow-up')
export const LabFileInIcon = asIcon('box-arrow-down')
export const PrintIcon = asIcon('printer')
export const FetchIcon = asIcon('download-simple')
export const SettingsIcon = asIcon('gear-six')
export const ThemeIcon = asIcon('circle-half')
export const TextSizeIcon = asIcon('text-aa')
export const SearchIcon = asIcon('magnifying-glass')
export const CloseIcon = asIcon('x', 'bold')
export const MoreIcon = asDots('more')
export const OpenIcon = asIcon('caret-down', 'bold')
export const OutwardIcon = asIcon('arrow-square-out')
export const CheckIcon = asIcon('check', 'bold')
export const CopyIcon = asIcon('copy')
export const EnterIcon = asIcon('key-return')
export const TagIcon = asIcon('tag')
export const WarningIcon = asIcon('warning-circle')
export const DangerIcon = asIcon('warning-octagon')
export const NoticeIcon = asIcon('info')
export const BackIcon = asIcon('arrow-left')
export const ForwardIcon = asIcon('arrow-right')
export const EarlierIcon = asIcon('clock-counter-clockwise')
export const SourceLinkIcon = asIcon('link-simple')
export const SourcePdfIcon = asIcon('file-pdf')
export const SourceManualIcon = asIcon('book-open-text')
export const SourcePictureIcon = asIcon('image')
export const SourcePageIcon = asIcon('browser')
export const SourceMarkdownIcon = asIcon('file-md')
export const SourceTextIcon = asIcon('file-text')
export const SourcesIcon = asIcon('stack')
export const JournalIcon = asIcon('note-pencil')
export const ProcedureIcon = asIcon('list-numbers')
export const LabIcon = asIcon('flask')
export const ProjectIcon = asIcon('folder')
export const OutlineIcon = asIcon('list-dashes')
export const WideIcon = asIcon('arrows-out-line-horizontal')
export const NarrowIcon = asIcon('arrows-in-line-horizontal')
export const SketchIcon = asIcon('tree-structure')
export const PinIcon = asIcon('push-pin')
export const SetAsideIcon = asIcon('archive')
export const FilterIcon = asIcon('funnel')
export const SortIcon = asIcon('sort-ascending')
export const SelectManyIcon = asIcon('list-checks')
export const ChosenIcon = asIcon('check-square', 'fill')
export const NotChosenIcon = asIcon('square')
export const FolderIcon = asIcon('folder-simple')
export const FolderOpenIcon = asIcon('folder-open')
export const ClosedIcon = asIcon('caret-right', 'bold')
export const MergeIcon = asIcon('arrows-merge')
