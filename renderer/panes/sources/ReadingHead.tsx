import { useState, type ReactNode, type Ref } from 'react'
import type { CaptureId } from '../../../shared/lab/ids.ts'
import { useOffered } from '../../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, Menu, type MenuLine } from '../../ui/index.ts'
import {
  AmendIcon,
  BackIcon,
  CarryIcon,
  DragHandleIcon,
  MoreIcon,
  NoticeIcon,
  PinIcon,
  RemoveIcon,
  SetAsideIcon,
  StrikeOutIcon,
  TraceIcon,
} from '../../ui/icons.tsx'
import { TagField } from '../tagging/index.ts'
import { carrySource, draggingOf, traceSource } from './carryingSource.ts'
import { setAside, setPinned } from './list/acts.ts'
import { About } from './reading/About.tsx'
import { CapturesMenu } from './reading/CapturesMenu.tsx'
import { factsLine } from './reading/facts.ts'
import type { PressedLink } from './reading/readerView.ts'
import type { TextSelection } from './ReadingText.tsx'
import { dayAndTimeOf, shortAddress, titleOf } from './rows.ts'
import { SourceFields } from './SourceFields.tsx'
import { joinSource, leaveSource } from './useOfSource.ts'
import type { Reading } from './useReading.ts'

export interface ReadingHeadProps {
  readonly reading: Reading
  readonly titleRef: Ref<HTMLHeadingElement>
  readonly selection: TextSelection | null
  /** The ways to look at it, as buttons. */
  readonly tools: ReactNode
  readonly isAboutOpen: boolean
  readonly onAbout: () => void
  readonly onBack: () => void
  readonly onCapture: (id: CaptureId) => void
  readonly onLink: (link: PressedLink) => void
  readonly onStrike: (words: string) => void
}

/** What a source is: its title, where and when it was read, what came of it, and what can be done with it. */
export function ReadingHead(props: ReadingHeadProps) {
  const { reading, titleRef, tools, isAboutOpen, onAbout, onCapture, onLink } = props
  const { source, capture, captures } = reading
  const project = useWorkspaceState((state) => state.view?.project)
  const workspace = useWorkspace()
  const [isEditing, setEditing] = useState(false)
  const isUsedHere = project !== undefined && source.projects.includes(project)
  const newest = captures[0]
  return (
    <div className="st-reading-head st-scroll">
      <Bar {...props} isUsedHere={isUsedHere} onEdit={() => setEditing(true)} />
      {isEditing ? (
        <SourceFields source={source} onClose={() => setEditing(false)} />
      ) : (
        <>
          <h3 ref={titleRef} tabIndex={-1} className="st-reading-title">
            {source.pinned ? <PinIcon className="st-reading-pin" weight="fill" /> : null}
            {titleOf(source)}
            {source.pinned ? <span className="st-unseen">, pinned</span> : null}
          </h3>
          {source.address === null ? null : <Address address={source.address} onLink={onLink} />}
        </>
      )}
      <p className="st-source-facts st-reading-facts">
        {factsLine(source, capture)}
        {source.setAside ? '. Set aside.' : ''}
      </p>
      {capture && newest && newest.id !== capture.id ? (
        <p className="st-reading-note st-reading-note--older">
          <span>{`This is not the newest capture: it was taken ${dayAndTimeOf(capture.taken)}. What you carry from it points to it.`}</span>
          <Button onClick={() => onCapture(newest.id)}>Read the newest</Button>
        </p>
      ) : null}
      {isUsedHere ? null : (
        <p className="st-reading-note">
          This project does not use it.{' '}
          <Button onClick={() => void joinSource(workspace, source)}>Use it here</Button>
        </p>
      )}
      {tools}
      <div className="st-reading-more">
        {captures.length > 1 && capture ? (
          <CapturesMenu captures={captures} shown={capture.id} onChoose={onCapture} />
        ) : null}
        <Button
          look="quiet"
          icon={NoticeIcon}
          label="About this source"
          aria-expanded={isAboutOpen}
          onClick={onAbout}
        >
          About
        </Button>
      </div>
      {isAboutOpen ? <About reading={reading} /> : null}
      <TagField thing={{ kind: 'source', record: source }} />
    </div>
  )
}

interface BarProps extends ReadingHeadProps {
  readonly isUsedHere: boolean
  readonly onEdit: () => void
}

function Bar({ reading, selection, isUsedHere, onBack, onStrike, onEdit }: BarProps) {
  const workspace = useWorkspace()
  const { source } = reading
  const lines: MenuLine[] = [
    {
      id: 'carry',
      word: 'Carry the selected words…',
      icon: CarryIcon,
      hint: 'Alt+C',
      disabledBecause: selection ? undefined : 'Select them in the text first.',
      onChoose: () => selection?.carry(),
    },
    {
      id: 'trace',
      word: selection ? 'Trace the selected words' : 'Trace',
      icon: TraceIcon,
      hint: 'Alt+T',
      onChoose: () => (selection ? selection.trace() : traceSource(workspace, source)),
    },
    { id: 'edit', word: 'Rename or change its address', icon: AmendIcon, onChoose: onEdit },
    {
      id: 'pin',
      word: source.pinned ? 'Take the pin off' : 'Pin it to the head of the list',
      icon: PinIcon,
      onChoose: () => void setPinned(workspace, [source.id], !source.pinned),
    },
    {
      id: 'aside',
      word: source.setAside ? 'Bring it back into the list' : 'Set it aside',
      icon: SetAsideIcon,
      onChoose: () => void setAside(workspace, [source.id], !source.setAside),
    },
    {
      id: 'leave',
      word: 'Take out of this project',
      icon: RemoveIcon,
      disabledBecause: isUsedHere ? undefined : 'This project does not use it.',
      onChoose: () => void leaveSource(workspace, source),
    },
    { kind: 'rule', id: 'rule' },
    {
      id: 'strike',
      word: 'Strike out…',
      icon: StrikeOutIcon,
      isDanger: true,
      disabledBecause: selection ? undefined : 'Select the words in the text first.',
      onChoose: () => selection && onStrike(selection.words()),
    },
  ]
  useOffered(() => ({ about: 'This source', lines }))
  return (
    <div className="st-reading-bar">
      <Button look="quiet" className="st-flush" icon={BackIcon} onClick={onBack}>
        All sources
      </Button>
      <Button
        className="st-reading-carry"
        icon={DragHandleIcon}
        onClick={() => carrySource(workspace, source)}
        {...draggingOf(workspace, source)}
      >
        Carry source…
      </Button>
      <Menu
        label="This source"
        lines={lines}
        trigger={(attributes) => (
          <Button {...attributes} look="quiet" icon={MoreIcon} label="More for this source" />
        )}
      />
    </div>
  )
}

/** An address leads nowhere by itself: pressing it shows it whole, with what can be done with it. */
function Address({
  address,
  onLink,
}: {
  readonly address: string
  readonly onLink: (link: PressedLink) => void
}) {
  return (
    <button
      type="button"
      className="st-address"
      aria-haspopup="dialog"
      aria-label={`Address: ${address}`}
      onClick={({ currentTarget }) =>
        onLink({ address, words: address, box: currentTarget.getBoundingClientRect() })
      }
    >
      {shortAddress(address)}
    </button>
  )
}
