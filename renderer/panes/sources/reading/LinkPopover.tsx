/** What is known of a link before anyone follows it: its whole address in clear, and what can be done with it. */
import { useEffect, useId, useMemo, useRef } from 'react'
import type { Source } from '../../../../shared/lab/model.ts'
import { addressKey } from '../../../../shared/sources/address-key.ts'
import { maybeMisleading, showAddress } from '../../../../shared/sources/shown-address.ts'
import { standingSource } from '../../../store/labSources.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { Button } from '../../../ui/index.ts'
import { AddIcon, CopyIcon, OutwardIcon, SourcesIcon, WarningIcon } from '../../../ui/icons.tsx'
import { placeNear } from '../../../ui/place.ts'
import { titleOf } from '../rows.ts'
import { takeLink } from '../taking.ts'
import type { PressedLink } from './readerView.ts'

export interface LinkPopoverProps {
  readonly link: PressedLink
  /** The source in which the link stands, or whose address it is. */
  readonly from: Source
  readonly onClose: () => void
}

/** Stands beside the link as long as it is rendered; a press outside or Escape closes it. */
export function LinkPopover({ link, from, onClose }: LinkPopoverProps) {
  const workspace = useWorkspace()
  const id = useId()
  const shown = useMemo(() => showAddress(link.address), [link.address])
  const misleading = maybeMisleading(link.words, link.address)
  const known = useKnown(link.address, from)
  const popover = useRef<HTMLDivElement>(null)
  usePopover(popover, link, onClose)
  const close = () => popover.current?.hidePopover()
  const and = (act: () => void) => () => {
    close()
    act()
  }
  return (
    <div
      ref={popover}
      popover="auto"
      role="dialog"
      aria-label="Where this link leads"
      aria-describedby={`${id}-address`}
      className="st-link-box st-address-whole"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return
        // Else the key would leave the source too.
        event.preventDefault()
        event.stopPropagation()
        close()
      }}
    >
      <p id={`${id}-address`} className="st-link-address">
        <span className="st-unseen">Address: </span>
        {shown.before}
        <strong>{shown.host}</strong>
        {shown.after}
      </p>
      {shown.isForeign ? (
        <p className="st-link-note">
          {shown.hostAsWritten === null
            ? 'The name of its host holds letters beyond ASCII, written here as the network has them. It may look like another name.'
            : `Its host was written ${shown.hostAsWritten}. The network has it as ${shown.host}; look whether that is the one you mean.`}
        </p>
      ) : null}
      {misleading === null ? null : (
        <p className="st-link-note st-link-note--warning" role="alert">
          <WarningIcon weight="fill" /> {misleading}
        </p>
      )}
      <div className="st-button-row">
        {known ? (
          <Button icon={SourcesIcon} onClick={and(() => workspace.goTo({ kind: 'source', id: known.id }))}>
            Read it here
          </Button>
        ) : null}
        {shown.isWeb ? (
          <Button
            icon={OutwardIcon}
            data-first
            onClick={and(() => void openAddress(workspace, shown.address))}
          >
            Open in the browser
          </Button>
        ) : null}
        <Button icon={CopyIcon} onClick={and(() => void copyAddress(workspace, shown.address))}>
          Copy
        </Button>
        {shown.isWeb && !known && addressKey(shown.address) !== addressKey(from.address ?? '') ? (
          <Button icon={AddIcon} onClick={and(() => void addLink(workspace, shown.address, link.words))}>
            Add as a source
          </Button>
        ) : null}
      </div>
      {known ? <p className="st-link-note">{`In this lab as “${titleOf(known)}”.`}</p> : null}
    </div>
  )
}

function usePopover(
  popover: { readonly current: HTMLDivElement | null },
  link: PressedLink,
  onClose: () => void,
): void {
  const close = useRef(onClose)
  useEffect(() => {
    close.current = onClose
  })
  useEffect(() => {
    const element = popover.current
    if (!element) return undefined
    const before = document.activeElement
    const onToggle = (event: Event): void => {
      if ((event as ToggleEvent).newState === 'closed') close.current()
    }
    element.addEventListener('toggle', onToggle)
    element.showPopover()
    placeNear(element, link.box, 'start')
    ;(
      element.querySelector<HTMLElement>('[data-first]') ?? element.querySelector<HTMLElement>('button')
    )?.focus()
    return () => {
      element.removeEventListener('toggle', onToggle)
      if (before instanceof HTMLElement && before.isConnected && isLost(document.activeElement, element))
        before.focus()
    }
  }, [popover, link])
}

/** Whether the keyboard would stand nowhere once the popover has gone. */
function isLost(active: Element | null, popover: Element): boolean {
  return active === null || active === document.body || popover.contains(active)
}

/** The source of this lab that has the address already, but for the one that is being read. */
function useKnown(address: string, from: Source): Source | null {
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  return useMemo(() => {
    const key = addressKey(address)
    for (const source of sources?.values() ?? []) {
      if (source.address === null || addressKey(source.address) !== key) continue
      const standing = standingSource({ sources: sources! }, source)
      if (standing.id !== from.id) return standing
    }
    return null
  }, [sources, address, from.id])
}

async function openAddress(workspace: Workspace, address: string): Promise<void> {
  const result = await workspace.host.openAddress({ address })
  if (!result.ok) workspace.say('problem', result.sentence)
}

async function copyAddress(workspace: Workspace, address: string): Promise<void> {
  const result = await workspace.host.copyText({ text: address })
  workspace.say(result.ok ? 'done' : 'problem', result.ok ? 'Address copied.' : result.sentence)
}

async function addLink(workspace: Workspace, address: string, words: string): Promise<void> {
  const title = words.replace(/\s+/gu, ' ').trim()
  const isName = title !== '' && title.length <= 200 && !/^(?:https?:|www\.)/iu.test(title)
  await takeLink(workspace, address, isName ? title : null, 'typed')
}
