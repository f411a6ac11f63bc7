/** How the kinds of the model look and are called on screen: a word, an icon and a colour together, never one alone. */
import type { EntryKind, SourceKind, StepPartKind } from '../../shared/lab/model.ts'
import {
  KindActionIcon,
  KindDecisionIcon,
  KindFileIcon,
  KindFixIcon,
  KindListIcon,
  KindObservationIcon,
  KindOutputIcon,
  KindProblemIcon,
  PartCautionIcon,
  PartConditionIcon,
  PartDoneAlreadyIcon,
  PartFileIcon,
  PartHeadingIcon,
  PartHoldIcon,
  PartUndoIcon,
  PartDoIcon,
  PartExpectIcon,
  PartIfItFailsIcon,
  PartWhyIcon,
  SourceLinkIcon,
  SourceManualIcon,
  SourceMarkdownIcon,
  SourcePageIcon,
  SourcePdfIcon,
  SourcePictureIcon,
  SourceTextIcon,
  type Icon,
} from './icons.tsx'

export interface KindFace {
  readonly word: string
  readonly icon: Icon
}

export interface EntryKindFace extends KindFace {
  /** The digit that chooses the kind together with Alt. */
  readonly digit: string
  /** Half a sentence, after the word and a colon, for someone who meets the kind for the first time. */
  readonly hint: string
}

export const entryKindFaces: Readonly<Record<EntryKind, EntryKindFace>> = {
  action: { word: 'Action', icon: KindActionIcon, digit: '1', hint: 'what you did or typed.' },
  output: { word: 'Output', icon: KindOutputIcon, digit: '2', hint: 'what the machine answered.' },
  observation: {
    word: 'Observation',
    icon: KindObservationIcon,
    digit: '3',
    hint: 'what you saw or measured.',
  },
  problem: { word: 'Problem', icon: KindProblemIcon, digit: '4', hint: 'what went wrong.' },
  fix: { word: 'Fix', icon: KindFixIcon, digit: '5', hint: 'what put it right.' },
  decision: { word: 'Decision', icon: KindDecisionIcon, digit: '6', hint: 'what you settled on, and why.' },
  file: {
    word: 'File',
    icon: KindFileIcon,
    digit: '7',
    hint: 'the state of a file, whole or as a difference.',
  },
  list: { word: 'List', icon: KindListIcon, digit: '8', hint: 'things to tick.' },
}

export const stepPartFaces: Readonly<Record<StepPartKind, KindFace>> = {
  heading: { word: 'Section', icon: PartHeadingIcon },
  condition: { word: 'When', icon: PartConditionIcon },
  'done already': { word: 'Done already if', icon: PartDoneAlreadyIcon },
  caution: { word: 'Caution', icon: PartCautionIcon },
  do: { word: 'Do', icon: PartDoIcon },
  file: { word: 'File', icon: PartFileIcon },
  expect: { word: 'Expect', icon: PartExpectIcon },
  'if it fails': { word: 'If it fails', icon: PartIfItFailsIcon },
  hold: { word: 'Hold point', icon: PartHoldIcon },
  undo: { word: 'To undo', icon: PartUndoIcon },
  why: { word: 'Why', icon: PartWhyIcon },
}

export const sourceKindFaces: Readonly<Record<SourceKind, KindFace>> = {
  link: { word: 'Link', icon: SourceLinkIcon },
  page: { word: 'Page', icon: SourcePageIcon },
  pdf: { word: 'PDF', icon: SourcePdfIcon },
  manual: { word: 'Manual', icon: SourceManualIcon },
  markdown: { word: 'Markdown', icon: SourceMarkdownIcon },
  text: { word: 'Text', icon: SourceTextIcon },
  picture: { word: 'Picture', icon: SourcePictureIcon },
}
