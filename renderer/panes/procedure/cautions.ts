/** Cautions: their signal words, and ready texts that are put into a step. */
import type { Part, Step } from '../../../shared/lab/model.ts'
import { insertInto } from '../../../shared/distil/distil.ts'
import {
  signalWordMeanings,
  signalWords,
  type Caution,
  type SignalWord,
} from '../../../shared/safety/signal-words/caution.ts'
import { cautionFromMarkdown, cautionToMarkdown } from '../../../shared/safety/signal-words/markdown.ts'
import type { ReadyCaution } from '../../../shared/safety/signal-words/ready-texts.ts'
import { beginPartWith, offerUndo, rewritePart } from '../../store/gestures.ts'
import { partsOfStep } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import type { MenuLine } from '../../ui/index.ts'
import { DangerIcon, NoticeIcon, PartCautionIcon, WarningIcon, type Icon } from '../../ui/icons.tsx'
import { setPane } from './paneStore.ts'

export const signalIcons: Readonly<Record<SignalWord, Icon>> = {
  danger: DangerIcon,
  warning: PartCautionIcon,
  caution: WarningIcon,
  notice: NoticeIcon,
}

/** The signal words with what each of them means, and the ready texts. */
export function linesOfSignal(workspace: Workspace, part: Part, signal: SignalWord | null): MenuLine[] {
  const { step } = part
  return [
    { kind: 'heading', id: 'what', word: 'What happens to whoever does not avoid it' },
    ...signalWords.map((word) => ({
      id: word,
      word: `${signalWordMeanings[word].word}: ${signalWordMeanings[word].meaning}`,
      icon: signalIcons[word],
      isChosen: word === signal,
      onChoose: () => void setSignal(workspace, part, word),
    })),
    { kind: 'rule', id: 'r' },
    ...(step === null
      ? []
      : [{ id: 'ready', word: 'Ready text…', onChoose: () => setPane({ readyFor: step }) }]),
  ]
}

/** Gives a caution another signal word; its other words stay what they are. */
export async function setSignal(workspace: Workspace, part: Part, signal: SignalWord): Promise<void> {
  await workspace.flushTexts()
  const text = workspace.requireView().texts.get(part.id) ?? ''
  await rewritePart(workspace, part, withSignal(text, signal))
}

/** The text of a caution with a signal word before it. */
export function withSignal(text: string, signal: SignalWord): string {
  return cautionToMarkdown({ ...cautionFromMarkdown(text), signal })
}

/** What a caution still lacks, as a sentence; empty where it is whole. */
export function wordsOfMissing(missing: readonly (keyof Caution)[]): string {
  const words: Readonly<Record<keyof Caution, string>> = {
    signal: 'a signal word',
    hazard: 'what the hazard is',
    consequence: 'what can happen',
    avoidance: 'how to avoid it',
  }
  if (missing.length === 0) return ''
  const list = missing.map((part) => words[part])
  const last = list.pop()!
  return `Still to say: ${list.length > 0 ? `${list.join(', ')} and ${last}` : last}.`
}

/** Puts a ready text into a step's caution, behind what stands there, and offers to take that back. */
export async function takeReady(
  workspace: Workspace,
  step: Step,
  { caution, title }: ReadyCaution,
): Promise<void> {
  await workspace.flushTexts()
  const view = workspace.requireView()
  const words = cautionToMarkdown(caution)
  const part = partsOfStep(view, step.id).get('caution')
  const before = part ? (view.texts.get(part.id) ?? '') : ''
  setPane({ readyFor: null })
  if (!part) {
    const made = await beginPartWith(workspace, step, 'caution', words)
    if (made) workspace.goTo({ kind: 'part', id: made.id })
    return
  }
  const next =
    before.trim() === ''
      ? words
      : before + insertInto(before, before.length, { text: words, ranges: [] }).text
  const change = await rewritePart(workspace, part, next)
  if (change) offerUndo(workspace, `“${title}” added. Adapt it to what stands here.`, change)
  workspace.goTo({ kind: 'part', id: part.id })
}
