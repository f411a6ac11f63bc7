/**
 * A picture over the whole window, with the way to the one before and behind it. It goes as soon as the keyboard is led
 * elsewhere, so that it never covers the composer.
 */
import { useCallback, useEffect, useMemo, useRef, useState, type KeyboardEvent, type ReactNode } from 'react'
import { createPortal } from 'react-dom'
import { picturesIn, type NamedPicture } from '../../../../shared/journal/pictures/named.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { entriesInOrder, type ProjectView } from '../../../store/view.ts'
import { Button, Dialog, TextInput } from '../../../ui/index.ts'
import { BackIcon, ExportIcon, ForwardIcon } from '../../../ui/icons.tsx'
import { describePicture } from './describePicture.ts'
import { savePicture } from './savePicture.ts'
import { usePicture } from './usePicture.ts'
import { NO_DESCRIPTION, sentenceOf } from './words.ts'

export interface PictureLargeProps {
  readonly first: NamedPicture
  readonly onClose: () => void
}

export function PictureLarge({ first, onClose }: PictureLargeProps): ReactNode {
  const workspace = useWorkspace()
  const around = useRef<HTMLDivElement>(null)
  const view = useWorkspaceState((state) => state.view)
  const [begun] = useState(first)
  const all = useMemo(() => picturesAround(view, begun), [view, begun])
  const [shown, setShown] = useState(() =>
    Math.max(
      0,
      all.findIndex((one) => isSame(one, begun)),
    ),
  )
  const [isActual, setActual] = useState(false)
  useClosingElsewhere(around, onClose)
  const go = (by: -1 | 1): void => {
    const to = shown + by
    if (to < 0 || to >= all.length) return
    setShown(to)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    // At its own size the arrows move the picture itself.
    if (
      isActual ||
      event.target instanceof HTMLInputElement ||
      event.altKey ||
      event.ctrlKey ||
      event.metaKey
    )
      return
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return
    event.preventDefault()
    go(event.key === 'ArrowLeft' ? -1 : 1)
  }
  const picture = all[shown] ?? begun
  return createPortal(
    // A press in here is none on what the picture stands in, though React would tell it there.
    <div
      ref={around}
      className="st-picture-large"
      onClick={(event) => event.stopPropagation()}
      onKeyDown={onKeyDown}
    >
      <Dialog
        title={picture.description || NO_DESCRIPTION}
        onClose={onClose}
        width="full"
        isOutside
        actions={
          <>
            {all.length < 2 ? null : (
              <>
                <span className="st-picture-count" role="status">
                  Picture {shown + 1} of {all.length}
                </span>
                <Button icon={BackIcon} disabled={shown === 0} onClick={() => go(-1)}>
                  Previous
                </Button>
                <Button icon={ForwardIcon} disabled={shown === all.length - 1} onClick={() => go(1)}>
                  Next
                </Button>
              </>
            )}
            <Button pressed={isActual} onClick={() => setActual(!isActual)}>
              100 %
            </Button>
            <Button icon={ExportIcon} onClick={() => void savePicture(workspace, picture)}>
              Save picture
            </Button>
          </>
        }
      >
        <Stage key={picture.sha256} picture={picture} isActual={isActual} />
        {isPlaced(picture) ? <Description key={`${picture.entry} ${picture.at}`} picture={picture} /> : null}
      </Dialog>
    </div>,
    document.body,
  )
}

function Stage({ picture, isActual }: { readonly picture: NamedPicture; readonly isActual: boolean }) {
  const found = usePicture(picture.sha256, true)
  return (
    <div
      className={`st-picture-stage${isActual ? ' st-picture-stage--actual' : ''}`}
      role="group"
      aria-label="Picture"
      tabIndex={0}
    >
      {found === null ? null : found.kind === 'picture' ? (
        <img src={found.url} alt={picture.description || NO_DESCRIPTION} draggable={false} />
      ) : (
        <p>{sentenceOf(found.kind)}</p>
      )}
    </div>
  )
}

/** A picture of the journal, with the entry that shows it and its place among the entry's pictures. */
interface PlacedPicture extends NamedPicture {
  readonly entry: EntryId
  readonly at: number
}

const isPlaced = (picture: PlacedPicture | NamedPicture): picture is PlacedPicture => 'entry' in picture

/** What is to be seen, in words. What was typed is kept when it is left in whatever way, with the way back. */
function Description({ picture }: { readonly picture: PlacedPicture }) {
  const workspace = useWorkspace()
  const [text, setText] = useState(picture.description)
  const latest = useRef({ text, picture })
  useEffect(() => {
    latest.current = { text, picture }
  })
  const keep = useCallback((): void => {
    const { text: typed, picture: now } = latest.current
    void describePicture(workspace, now, typed)
  }, [workspace])
  useEffect(() => keep, [keep])
  return (
    <form
      className="st-picture-description"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      <TextInput
        label="Description, for those who cannot see the picture and for finding it"
        value={text}
        onChange={({ target }) => setText(target.value)}
      />
      <Button type="submit" look="strong" disabled={text.trim() === picture.description.trim()}>
        Keep the description
      </Button>
    </form>
  )
}

/** The pictures of the project's journal in its order; the picture alone where it is in none of its entries. */
function picturesAround(
  view: ProjectView | null,
  begun: NamedPicture,
): readonly (PlacedPicture | NamedPicture)[] {
  const all = view
    ? entriesInOrder(view).flatMap(({ id }): PlacedPicture[] =>
        picturesIn(view.texts.get(id) ?? '').map((one, at) => ({ ...one, entry: id, at })),
      )
    : []
  return all.some(({ sha256 }) => sha256 === begun.sha256) ? all : [begun]
}

const isSame = (one: NamedPicture, other: NamedPicture): boolean =>
  one.sha256 === other.sha256 && one.description === other.description

function useClosingElsewhere(around: { readonly current: HTMLElement | null }, onClose: () => void): void {
  useEffect(() => {
    const onFocus = ({ target }: FocusEvent): void => {
      if (target instanceof Node && !around.current?.contains(target)) onClose()
    }
    document.addEventListener('focusin', onFocus)
    return () => document.removeEventListener('focusin', onFocus)
  }, [around, onClose])
}
