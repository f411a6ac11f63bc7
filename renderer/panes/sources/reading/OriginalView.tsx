/** The original bytes of a capture, as far as they can be looked at without anything in them acting. */
import { useCallback, useEffect, useRef, useState, type ReactNode } from 'react'
import { EditorState } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import type { Capture, Source } from '../../../../shared/lab/model.ts'
import { readingExtensions } from '../../../editor/extensions.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, ErrorSentence, ProgressLine } from '../../../ui/index.ts'
import { ExportIcon, OutwardIcon } from '../../../ui/icons.tsx'
import { LONG_TEXT } from '../picking.ts'
import { titleOf } from '../rows.ts'
import { openOriginal, saveOriginal, showElsewhere, type OpenedOriginal } from './originals.ts'
import { useApart } from './useApart.ts'

export interface OriginalViewProps {
  readonly source: Source
  readonly capture: Capture
}

export function OriginalView({ source, capture }: OriginalViewProps) {
  const workspace = useWorkspace()
  const { sha256 } = capture
  const asked = useApart(useCallback(() => openOriginal(workspace, { sha256 }), [workspace, sha256]))
  if (asked.kind === 'waiting')
    return (
      <div className="st-original">
        <ProgressLine words="Making the original ready" share={null} />
      </div>
    )
  if (asked.kind === 'broken' || asked.value === null)
    return (
      <div className="st-original">
        <ErrorSentence
          happened="The original cannot be shown."
          safe="The text of the source is kept as it is."
          next={
            asked.kind === 'broken'
              ? 'Something in the program went wrong. Try it again.'
              : 'Its bytes are not in this lab. They go when something is struck out of them.'
          }
        />
      </div>
    )
  return <Opened source={source} opened={asked.value} />
}

interface OpenedProps {
  readonly source: Source
  readonly opened: OpenedOriginal
}

function Opened({ source, opened }: OpenedProps) {
  const workspace = useWorkspace()
  const { original, bytes } = opened
  const canGoElsewhere = original.kind === 'pdf' || original.kind === 'picture' || original.kind === 'text'
  return (
    <div className="st-original">
      <div className="st-original-bar">
        {canGoElsewhere ? (
          <Button icon={OutwardIcon} onClick={() => void showElsewhere(workspace, source, bytes)}>
            Open in the system’s program
          </Button>
        ) : null}
        <Button icon={ExportIcon} onClick={() => void saveOriginal(workspace, source, opened)}>
          Save the original…
        </Button>
      </div>
      <Shown source={source} opened={opened} />
    </div>
  )
}

function Shown({ source, opened }: OpenedProps): ReactNode {
  const { original, bytes } = opened
  switch (original.kind) {
    case 'page':
      return <Page title={titleOf(source)} html={original.html} leftOut={original.leftOut} />
    case 'picture':
      return (
        <Picture
          bytes={bytes}
          mediaType={original.mediaType}
          words={source.remark.trim() || titleOf(source)}
          size={`${original.width} × ${original.height} pixels`}
        />
      )
    case 'text':
      return <PlainText title={titleOf(source)} text={original.text} />
    case 'pdf':
      return (
        <p className="st-original-note">
          The pages of a PDF are not drawn here. Its text is under “Text”, page by page; open it in the
          system’s program to see its pages as they are printed.
        </p>
      )
    case 'not shown':
      return <p className="st-original-note">{original.sentence}</p>
  }
}

/** The frame has no rights at all: no scripts, no forms, no origin, no windows, no way to lead this page elsewhere. */
function Page({
  title,
  html,
  leftOut,
}: {
  readonly title: string
  readonly html: string
  readonly leftOut: number
}) {
  const around = useRef<HTMLDivElement>(null)
  useKeysBack(around)
  return (
    <>
      <p className="st-original-note">
        As it was kept. Nothing in it runs or loads, and its links lead nowhere
        {leftOut > 0 ? `; ${leftOut} large pictures are left out here` : ''}.
      </p>
      <div ref={around} className="st-original-around" tabIndex={-1}>
        <iframe
          className="st-original-frame"
          title={`Original of ${title}`}
          sandbox=""
          referrerPolicy="no-referrer"
          srcDoc={html}
        />
      </div>
    </>
  )
}

/**
 * A press into the frame would keep the keyboard there, and the program's keys would no longer be heard. So the keyboard
 * comes back at once, unless it went in by Tab, which also leads out again.
 */
function useKeysBack(around: { readonly current: HTMLElement | null }): void {
  useEffect(() => {
    let wasTab = false
    const onKey = (event: KeyboardEvent): void => {
      wasTab = event.key === 'Tab'
    }
    const onPointer = (): void => {
      wasTab = false
    }
    const onBlur = (): void => {
      setTimeout(() => {
        const { activeElement } = document
        if (!wasTab && activeElement instanceof HTMLIFrameElement && around.current?.contains(activeElement))
          around.current.focus({ preventScroll: true })
      })
    }
    window.addEventListener('keydown', onKey, true)
    window.addEventListener('pointermove', onPointer, true)
    window.addEventListener('blur', onBlur)
    return () => {
      window.removeEventListener('keydown', onKey, true)
      window.removeEventListener('pointermove', onPointer, true)
      window.removeEventListener('blur', onBlur)
    }
  }, [around])
}

interface PictureProps {
  readonly bytes: Uint8Array
  readonly mediaType: string
  /** What it shows, for those who do not see it. */
  readonly words: string
  readonly size: string
}

/** A picture, as large as its place or as it is. */
export function Picture({ bytes, mediaType, words, size }: PictureProps) {
  const [address, setAddress] = useState<string | null>(null)
  const [isActual, setActual] = useState(false)
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: mediaType }))
    setAddress(made)
    return () => URL.revokeObjectURL(made)
  }, [bytes, mediaType])
  return (
    <>
      <div className="st-original-bar">
        <Button look="quiet" pressed={!isActual} onClick={() => setActual(false)}>
          Fit
        </Button>
        <Button look="quiet" pressed={isActual} onClick={() => setActual(true)}>
          Actual size
        </Button>
        <span className="st-original-size">{size}</span>
      </div>
      <div className="st-original-picture st-scroll" role="region" aria-label="Picture" tabIndex={0}>
        {address === null ? null : (
          <img className={isActual ? '' : 'st-original-fit'} src={address} alt={words} />
        )}
      </div>
    </>
  )
}

function PlainText({ title, text }: { readonly title: string; readonly text: string }) {
  const parent = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const dress = text.length >= LONG_TEXT ? 'long' : 'text'
    const view = new EditorView({
      parent: parent.current!,
      state: EditorState.create({
        doc: text,
        extensions: [readingExtensions(`Original of ${title}`, [], dress)],
      }),
    })
    return () => view.destroy()
  }, [title, text])
  return <div ref={parent} className="st-reading-text st-editor st-mono" />
}
