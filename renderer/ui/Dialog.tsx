import { useEffect, useId, useRef, type KeyboardEvent, type ReactNode } from 'react'
import { createPortal } from 'react-dom'
import { Button } from './Button.tsx'
import { CloseIcon } from './icons.tsx'

export interface DialogProps {
  readonly title: string
  readonly onClose: () => void
  readonly children: ReactNode
  /** The buttons at the foot, the one that goes on last. */
  readonly actions?: ReactNode
  /** Only for confirming that something is taken away for good. All else stays beside the work and never covers the composer. */
  readonly isModal?: boolean
  /** full: nearly the whole window, for what is looked at. */
  readonly width?: 'narrow' | 'wide' | 'full'
  /** It is rendered outside of the panes and bars already, and stays where it is rendered. */
  readonly isOutside?: boolean
}

/**
 * A native dialog, open as long as it is rendered. Focus goes to the element marked with `data-first`, else to the
 * dialog, and back to where it was at the end. Escape closes it. It stands at the end of the page, since what each pane and
 * bar paints is kept apart, so that nothing in one lies over the others.
 */
export function Dialog(props: DialogProps) {
  const dialog = <OpenDialog {...props} />
  return props.isOutside ? dialog : createPortal(dialog, document.body)
}

function OpenDialog({ title, onClose, children, actions, isModal = false, width = 'narrow' }: DialogProps) {
  const id = useId()
  const dialog = useRef<HTMLDialogElement>(null)
  useOpenDialog(dialog, isModal)
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || event.defaultPrevented) return
    event.preventDefault()
    event.stopPropagation()
    onClose()
  }
  return (
    <dialog
      ref={dialog}
      className={`st-dialog st-dialog--${width}${isModal ? ' st-dialog--modal' : ''}`}
      aria-labelledby={`${id}-title`}
      tabIndex={-1}
      onKeyDown={onKeyDown}
      onCancel={(event) => {
        event.preventDefault()
        onClose()
      }}
    >
      <header className="st-dialog-head">
        <h2 id={`${id}-title`} className="st-dialog-title">
          {title}
        </h2>
        <Button look="quiet" icon={CloseIcon} label="Close" onClick={onClose} />
      </header>
      <div className="st-dialog-body st-scroll">{children}</div>
      {actions === undefined ? null : <footer className="st-dialog-actions">{actions}</footer>}
    </dialog>
  )
}

function useOpenDialog(dialog: { readonly current: HTMLDialogElement | null }, isModal: boolean): void {
  useEffect(() => {
    const element = dialog.current
    const before = document.activeElement
    if (element === null) return undefined
    if (isModal) element.showModal()
    else element.show()
    const first = element.querySelector<HTMLElement>('[data-first]') ?? element
    first.focus()
    return () => {
      // Whoever has gone on elsewhere meanwhile, to the composer for instance, stays there.
      const { activeElement } = document
      const isElsewhere = activeElement !== document.body && !element.contains(activeElement)
      element.close()
      const next = isElsewhere ? activeElement : before
      if (next instanceof HTMLElement && next.isConnected) next.focus()
    }
  }, [dialog, isModal])
}

export interface ConfirmProps {
  readonly title: string
  /** What will be gone, what stays, what else to do. */
  readonly children: ReactNode
  /** Says the act itself, for instance 'Strike out'. Never 'OK'. */
  readonly act: string
  readonly onConfirm: () => void
  readonly onClose: () => void
}

/** Asks once before something is taken away for good. The safe button has the focus. */
export function Confirm({ title, children, act, onConfirm, onClose }: ConfirmProps) {
  return (
    <Dialog
      title={title}
      onClose={onClose}
      isModal
      actions={
        <>
          <Button onClick={onClose} data-first>
            Leave it as it is
          </Button>
          <Button look="danger" onClick={onConfirm}>
            {act}
          </Button>
        </>
      }
    >
      {children}
    </Dialog>
  )
}
