/**
 * Icons by what they mean here, so that a pane never picks a picture of its own. One family (Phosphor, MIT licence),
 * each imported singly so that only these are bundled. An icon never stands alone for a meaning: a word or a label
 * is always beside it, so every icon is hidden from assistive technology.
 */
import type { ComponentType } from 'react'
import type { IconProps, IconWeight } from '@phosphor-icons/react'
import { ArchiveIcon as Archive } from '@phosphor-icons/react/dist/csr/Archive'
import { ArrowDownIcon as ArrowDown } from '@phosphor-icons/react/dist/csr/ArrowDown'
import { ArrowLeftIcon as ArrowLeft } from '@phosphor-icons/react/dist/csr/ArrowLeft'
import { ArrowRightIcon as ArrowRight } from '@phosphor-icons/react/dist/csr/ArrowRight'
import { ArrowSquareOutIcon as ArrowSquareOut } from '@phosphor-icons/react/dist/csr/ArrowSquareOut'
import { ArrowsInLineHorizontalIcon as ArrowsInLineHorizontal } from '@phosphor-icons/react/dist/csr/ArrowsInLineHorizontal'
import { ArrowsOutLineHorizontalIcon as ArrowsOutLineHorizontal } from '@phosphor-icons/react/dist/csr/ArrowsOutLineHorizontal'
import { ArrowUUpLeftIcon as ArrowUUpLeft } from '@phosphor-icons/react/dist/csr/ArrowUUpLeft'
import { ArrowUUpRightIcon as ArrowUUpRight } from '@phosphor-icons/react/dist/csr/ArrowUUpRight'
import { ArrowUpIcon as ArrowUp } from '@phosphor-icons/react/dist/csr/ArrowUp'
import { ArrowsMergeIcon as ArrowsMerge } from '@phosphor-icons/react/dist/csr/ArrowsMerge'
import { BookOpenTextIcon as BookOpenText } from '@phosphor-icons/react/dist/csr/BookOpenText'
import { BoxArrowDownIcon as BoxArrowDown } from '@phosphor-icons/react/dist/csr/BoxArrowDown'
import { BoxArrowUpIcon as BoxArrowUp } from '@phosphor-icons/react/dist/csr/BoxArrowUp'
import { BracketsSquareIcon as BracketsSquare } from '@phosphor-icons/react/dist/csr/BracketsSquare'
import { BrowserIcon as Browser } from '@phosphor-icons/react/dist/csr/Browser'
import { CaretDownIcon as CaretDown } from '@phosphor-icons/react/dist/csr/CaretDown'
import { CaretLineLeftIcon as CaretLineLeft } from '@phosphor-icons/react/dist/csr/CaretLineLeft'
import { CaretLineRightIcon as CaretLineRight } from '@phosphor-icons/react/dist/csr/CaretLineRight'
import { CaretRightIcon as CaretRight } from '@phosphor-icons/react/dist/csr/CaretRight'
import { ChatTextIcon as ChatText } from '@phosphor-icons/react/dist/csr/ChatText'
import { CheckIcon as Check } from '@phosphor-icons/react/dist/csr/Check'
import { FlagIcon as Flag } from '@phosphor-icons/react/dist/csr/Flag'
import { TextboxIcon as Textbox } from '@phosphor-icons/react/dist/csr/Textbox'
import { FileCodeIcon as FileCode } from '@phosphor-icons/react/dist/csr/FileCode'
import { CheckCircleIcon as CheckCircle } from '@phosphor-icons/react/dist/csr/CheckCircle'
import { ClockIcon as Clock } from '@phosphor-icons/react/dist/csr/Clock'
import { DesktopTowerIcon as DesktopTower } from '@phosphor-icons/react/dist/csr/DesktopTower'
import { QuestionIcon as Question } from '@phosphor-icons/react/dist/csr/Question'
import { XCircleIcon as XCircle } from '@phosphor-icons/react/dist/csr/XCircle'
import { ArrowBendDownRightIcon as ArrowBendDownRight } from '@phosphor-icons/react/dist/csr/ArrowBendDownRight'
import { CheckSquareIcon as CheckSquare } from '@phosphor-icons/react/dist/csr/CheckSquare'
import { CircleHalfIcon as CircleHalf } from '@phosphor-icons/react/dist/csr/CircleHalf'
import { ClockCounterClockwiseIcon as ClockCounterClockwise } from '@phosphor-icons/react/dist/csr/ClockCounterClockwise'
import { CopyIcon as Copy } from '@phosphor-icons/react/dist/csr/Copy'
import { DownloadSimpleIcon as DownloadSimple } from '@phosphor-icons/react/dist/csr/DownloadSimple'
import { EraserIcon as Eraser } from '@phosphor-icons/react/dist/csr/Eraser'
import { ExportIcon as Export } from '@phosphor-icons/react/dist/csr/Export'
import { EyeIcon as Eye } from '@phosphor-icons/react/dist/csr/Eye'
import { FileMdIcon as FileMd } from '@phosphor-icons/react/dist/csr/FileMd'
import { FilePdfIcon as FilePdf } from '@phosphor-icons/react/dist/csr/FilePdf'
import { FileTextIcon as FileText } from '@phosphor-icons/react/dist/csr/FileText'
import { FlaskIcon as Flask } from '@phosphor-icons/react/dist/csr/Flask'
import { FolderIcon as Folder } from '@phosphor-icons/react/dist/csr/Folder'
import { FolderOpenIcon as FolderOpen } from '@phosphor-icons/react/dist/csr/FolderOpen'
import { FolderSimpleIcon as FolderSimple } from '@phosphor-icons/react/dist/csr/FolderSimple'
import { FunnelIcon as Funnel } from '@phosphor-icons/react/dist/csr/Funnel'
import { GearSixIcon as GearSix } from '@phosphor-icons/react/dist/csr/GearSix'
import { GitForkIcon as GitFork } from '@phosphor-icons/react/dist/csr/GitFork'
import { HandIcon as Hand } from '@phosphor-icons/react/dist/csr/Hand'
import { ImageIcon as Image } from '@phosphor-icons/react/dist/csr/Image'
import { InfoIcon as Info } from '@phosphor-icons/react/dist/csr/Info'
import { KeyIcon as Key } from '@phosphor-icons/react/dist/csr/Key'
import { LightbulbIcon as Lightbulb } from '@phosphor-icons/react/dist/csr/Lightbulb'
import { KeyReturnIcon as KeyReturn } from '@phosphor-icons/react/dist/csr/KeyReturn'
import { LinkSimpleIcon as LinkSimple } from '@phosphor-icons/react/dist/csr/LinkSimple'
import { ListChecksIcon as ListChecks } from '@phosphor-icons/react/dist/csr/ListChecks'
import { ListDashesIcon as ListDashes } from '@phosphor-icons/react/dist/csr/ListDashes'
import { ListMagnifyingGlassIcon as ListMagnifyingGlass } from '@phosphor-icons/react/dist/csr/ListMagnifyingGlass'
import { ListNumbersIcon as ListNumbers } from '@phosphor-icons/react/dist/csr/ListNumbers'
import { MagnifyingGlassIcon as MagnifyingGlass } from '@phosphor-icons/react/dist/csr/MagnifyingGlass'
import { MinusIcon as Minus } from '@phosphor-icons/react/dist/csr/Minus'
import { NotePencilIcon as NotePencil } from '@phosphor-icons/react/dist/csr/NotePencil'
import { PathIcon as Path } from '@phosphor-icons/react/dist/csr/Path'
import { PencilSimpleLineIcon as PencilSimpleLine } from '@phosphor-icons/react/dist/csr/PencilSimpleLine'
import { PlusIcon as Plus } from '@phosphor-icons/react/dist/csr/Plus'
import { PrinterIcon as Printer } from '@phosphor-icons/react/dist/csr/Printer'
import { ProhibitIcon as Prohibit } from '@phosphor-icons/react/dist/csr/Prohibit'
import { PushPinIcon as PushPin } from '@phosphor-icons/react/dist/csr/PushPin'
import { SignpostIcon as Signpost } from '@phosphor-icons/react/dist/csr/Signpost'
import { SealCheckIcon as SealCheck } from '@phosphor-icons/react/dist/csr/SealCheck'
import { SortAscendingIcon as SortAscending } from '@phosphor-icons/react/dist/csr/SortAscending'
import { SquareIcon as Square } from '@phosphor-icons/react/dist/csr/Square'
import { StackIcon as Stack } from '@phosphor-icons/react/dist/csr/Stack'
import { TagIcon as Tag } from '@phosphor-icons/react/dist/csr/Tag'
import { TargetIcon as Target } from '@phosphor-icons/react/dist/csr/Target'
import { TerminalIcon as Terminal } from '@phosphor-icons/react/dist/csr/Terminal'
import { TextAaIcon as TextAa } from '@phosphor-icons/react/dist/csr/TextAa'
import { TextAlignLeftIcon as TextAlignLeft } from '@phosphor-icons/react/dist/csr/TextAlignLeft'
import { TreeStructureIcon as TreeStructure } from '@phosphor-icons/react/dist/csr/TreeStructure'
import { WarningIcon as Warning } from '@phosphor-icons/react/dist/csr/Warning'
import { WarningCircleIcon as WarningCircle } from '@phosphor-icons/react/dist/csr/WarningCircle'
import { WarningDiamondIcon as WarningDiamond } from '@phosphor-icons/react/dist/csr/WarningDiamond'
import { WarningOctagonIcon as WarningOctagon } from '@phosphor-icons/react/dist/csr/WarningOctagon'
import { WrenchIcon as Wrench } from '@phosphor-icons/react/dist/csr/Wrench'
import { TextTIcon as TextT } from '@phosphor-icons/react/dist/csr/TextT'
import { ArrowsSplitIcon as ArrowsSplit } from '@phosphor-icons/react/dist/csr/ArrowsSplit'
import { HandPalmIcon as HandPalm } from '@phosphor-icons/react/dist/csr/HandPalm'
import { XIcon as X } from '@phosphor-icons/react/dist/csr/X'

export interface StillroomIconProps {
  /** Any CSS length; by default 1.2 of the text beside it. */
  readonly size?: string
  readonly weight?: IconWeight
  readonly className?: string
}
export type Icon = ComponentType<StillroomIconProps>

function asIcon(Picture: ComponentType<IconProps>, usual: IconWeight = 'regular'): Icon {
  return function StillroomIcon({ size, weight = usual, className }) {
    const style = size === undefined ? {} : { width: size, height: size }
    return (
      <Picture
        aria-hidden="true"
        focusable="false"
        className={className === undefined ? 'st-icon' : `st-icon ${className}`}
        style={style}
        weight={weight}
      />
    )
  }
}

/**
 * Signs that stand beside every row by the hundred are drawn by the style sheet: each SVG is a layer of its own to the
 * browser, which goes through all of them with every key.
 */
function asDots(sign: 'handle' | 'more'): Icon {
  return function DotsIcon({ size, className }) {
    const style = size === undefined ? {} : { width: size, height: size, fontSize: `calc(${size} / 1.2)` }
    const classes = `st-icon st-dots st-dots--${sign}`
    return (
      <span
        aria-hidden="true"
        className={className === undefined ? classes : `${classes} ${className}`}
        style={style}
      />
    )
  }
}

export const KindActionIcon = asIcon(Terminal)
export const KindOutputIcon = asIcon(TextAlignLeft)
export const KindObservationIcon = asIcon(Eye)
export const KindProblemIcon = asIcon(WarningDiamond)
export const KindFixIcon = asIcon(Wrench)
export const KindDecisionIcon = asIcon(Signpost)
export const KindFileIcon = asIcon(FileCode)
export const KindListIcon = asIcon(ListChecks)
export const SucceededIcon = asIcon(CheckCircle)
export const FailedIcon = asIcon(XCircle)
export const UnknownIcon = asIcon(Question)
export const PlaceIcon = asIcon(DesktopTower)
export const TimeIcon = asIcon(Clock)
export const AdditionIcon = asIcon(ArrowBendDownRight)
export const SealIcon = asIcon(SealCheck)
export const PartDoIcon = asIcon(Hand)
export const PartExpectIcon = asIcon(Target)
export const PartCautionIcon = asIcon(Warning)
export const PartIfItFailsIcon = asIcon(GitFork)
export const PartWhyIcon = asIcon(Lightbulb)
export const PartHeadingIcon = asIcon(TextT)
export const PartConditionIcon = asIcon(ArrowsSplit)
export const PartDoneAlreadyIcon = asIcon(CheckCircle)
export const PartFileIcon = asIcon(FileCode)
export const PartHoldIcon = asIcon(HandPalm)
export const PartUndoIcon = asIcon(ArrowUUpLeft)
export const ParameterIcon = asIcon(BracketsSquare)
export const FillInIcon = asIcon(Textbox)
export const ReviewIcon = asIcon(ListMagnifyingGlass)
export const VersionIcon = asIcon(Flag)
export const RemarkIcon = asIcon(ChatText)
export const AccessIcon = asIcon(Key)
export const CarryIcon = asIcon(ArrowRight, 'bold')
export const TraceIcon = asIcon(Path)
export const UndoIcon = asIcon(ArrowUUpLeft)
export const RedoIcon = asIcon(ArrowUUpRight)
export const AddIcon = asIcon(Plus, 'bold')
export const FoldLeftIcon = asIcon(CaretLineLeft)
export const FoldRightIcon = asIcon(CaretLineRight)
export const DragHandleIcon = asDots('handle')
export const MoveUpIcon = asIcon(ArrowUp, 'bold')
export const MoveDownIcon = asIcon(ArrowDown, 'bold')
export const AmendIcon = asIcon(PencilSimpleLine)
export const WithdrawIcon = asIcon(Prohibit)
export const StrikeOutIcon = asIcon(Eraser)
export const RemoveIcon = asIcon(Minus)
export const ExportIcon = asIcon(Export)
export const LabFileOutIcon = asIcon(BoxArrowUp)
export const LabFileInIcon = asIcon(BoxArrowDown)
export const PrintIcon = asIcon(Printer)
export const FetchIcon = asIcon(DownloadSimple)
export const SettingsIcon = asIcon(GearSix)
export const ThemeIcon = asIcon(CircleHalf)
export const TextSizeIcon = asIcon(TextAa)
export const SearchIcon = asIcon(MagnifyingGlass)
export const CloseIcon = asIcon(X, 'bold')
export const MoreIcon = asDots('more')
export const OpenIcon = asIcon(CaretDown, 'bold')
export const OutwardIcon = asIcon(ArrowSquareOut)
export const CheckIcon = asIcon(Check, 'bold')
export const CopyIcon = asIcon(Copy)
export const EnterIcon = asIcon(KeyReturn)
export const TagIcon = asIcon(Tag)
export const WarningIcon = asIcon(WarningCircle)
export const DangerIcon = asIcon(WarningOctagon)
export const NoticeIcon = asIcon(Info)
export const BackIcon = asIcon(ArrowLeft)
export const ForwardIcon = asIcon(ArrowRight)
export const EarlierIcon = asIcon(ClockCounterClockwise)
export const SourceLinkIcon = asIcon(LinkSimple)
export const SourcePdfIcon = asIcon(FilePdf)
export const SourceManualIcon = asIcon(BookOpenText)
export const SourcePictureIcon = asIcon(Image)
export const SourcePageIcon = asIcon(Browser)
export const SourceMarkdownIcon = asIcon(FileMd)
export const SourceTextIcon = asIcon(FileText)
export const SourcesIcon = asIcon(Stack)
export const JournalIcon = asIcon(NotePencil)
export const ProcedureIcon = asIcon(ListNumbers)
export const LabIcon = asIcon(Flask)
export const ProjectIcon = asIcon(Folder)
export const OutlineIcon = asIcon(ListDashes)
export const WideIcon = asIcon(ArrowsOutLineHorizontal)
export const NarrowIcon = asIcon(ArrowsInLineHorizontal)
export const SketchIcon = asIcon(TreeStructure)
export const PinIcon = asIcon(PushPin)
export const SetAsideIcon = asIcon(Archive)
export const FilterIcon = asIcon(Funnel)
export const SortIcon = asIcon(SortAscending)
export const SelectManyIcon = asIcon(ListChecks)
export const ChosenIcon = asIcon(CheckSquare, 'fill')
export const NotChosenIcon = asIcon(Square)
export const FolderIcon = asIcon(FolderSimple)
export const FolderOpenIcon = asIcon(FolderOpen)
export const ClosedIcon = asIcon(CaretRight, 'bold')
export const MergeIcon = asIcon(ArrowsMerge)
