import { useEffect, useRef, useState } from 'react'
import { Button } from './Button.tsx'
import { createCountdown, type Countdown } from './countdown.ts'
import { CheckIcon, CloseIcon, NoticeIcon, WarningIcon } from './icons.tsx'

export type NoticeTone = 'done' | 'notice' | 'problem'

export interface Notice {
  readonly id: string
  readonly tone: NoticeTone
  /** One or two sentences. */
  readonly words: string
  /** The one thing that can be done about it, for instance Undo. */
  readonly action?: { readonly word: string; readonly keys?: string; readonly onAct: () => void } | undefined
}

export interface NoticesProps {
  readonly notices: readonly Notice[]
  readonly onDismiss: (id: string) => void
}

/** How long a notice stays, in milliseconds, unless it tells of a problem: that one stays until it is dismissed. */
export const noticeStaysMs = 12_000

/**
 * What just happened, at the foot of the screen, read out politely (aria-live). Render it always, also when there is
 * nothing to say: a live region must be there before its words. What a notice offers must be in reach elsewhere too.
 */
export function Notices({ notices, onDismiss }: NoticesProps) {
  return (
    <section
      className={useIsDragging() ? 'st-notices st-notices--aside' : 'st-notices'}
      aria-label="What just happened"
    >
      <div aria-live="polite" aria-relevant="additions text" className="st-notices-list">
        {notices.map((notice) => (
          <NoticeLine key={notice.id} notice={notice} onDismiss={() => onDismiss(notice.id)} />
        ))}
      </div>
    </section>
  )
}

/** While something is dragged the notices step aside, since they lie over places where it may land. */
function useIsDragging(): boolean {
  const [isDragging, setDragging] = useState(false)
  useEffect(() => {
    const begin = (): void => setDragging(true)
    const end = (): void => setDragging(false)
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) end()
    }
    document.addEventListener('dragenter', begin)
    document.addEventListener('dragleave', leave)
    for (const type of ['dragend', 'drop'] as const) document.addEventListener(type, end, true)
    return () => {
      document.removeEventListener('dragenter', begin)
      document.removeEventListener('dragleave', leave)
      for (const type of ['dragend', 'drop'] as const) document.removeEventListener(type, end, true)
    }
  }, [])
  return isDragging
}

const toneIcons = { done: CheckIcon, notice: NoticeIcon, problem: WarningIcon } as const

function NoticeLine({ notice, onDismiss }: { readonly notice: Notice; readonly onDismiss: () => void }) {
  const countdown = useRef<Countdown | null>(null)
  const dismiss = useRef(onDismiss)
  useEffect(() => {
    dismiss.current = onDismiss
  })
  useEffect(() => {
    if (notice.tone === 'problem') return undefined
    const running = createCountdown(noticeStaysMs, () => dismiss.current())
    countdown.current = running
    return () => running.stop()
  }, [notice.id, notice.tone])
  const hold = () => countdown.current?.hold()
  const run = () => countdown.current?.run()
  const Picture = toneIcons[notice.tone]
  return (
    <div
      className={`st-notice st-notice--${notice.tone}`}
      onPointerEnter={hold}
      onPointerLeave={run}
      onFocus={hold}
      onBlur={run}
    >
      <Picture />
      <p className="st-notice-words">{notice.words}</p>
      <NoticeAction notice={notice} onDismiss={onDismiss} />
      <Button look="quiet" icon={CloseIcon} label="Dismiss" onClick={onDismiss} />
    </div>
  )
}

function NoticeAction({ notice, onDismiss }: { readonly notice: Notice; readonly onDismiss: () => void }) {
  const { action } = notice
  if (action === undefined) return null
  const act = () => {
    action.onAct()
    onDismiss()
  }
  return (
    <Button look="plain" keys={action.keys} onClick={act}>
      {action.word}
    </Button>
  )
}
