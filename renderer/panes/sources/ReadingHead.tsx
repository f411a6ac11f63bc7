import { useId, useState, type Ref } from 'react'
import type { Source } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, Menu, sourceKindFaces } from '../../ui/index.ts'
import {
  AmendIcon,
  BackIcon,
  CarryIcon,
  CopyIcon,
  DragHandleIcon,
  MoreIcon,
  RemoveIcon,
  StrikeOutIcon,
} from '../../ui/icons.tsx'
import { CameOfSource } from './CameOf.tsx'
import { carrySource, draggingOf } from './carryingSource.ts'
import type { TextSelection } from './ReadingText.tsx'
import { dayAndTimeOf, shortAddress, titleOf } from './rows.ts'
import { SourceFields } from './SourceFields.tsx'
import { joinSource, leaveSource } from './useOfSource.ts'
import type { Reading } from './useReading.ts'

export interface ReadingHeadProps {
  readonly reading: Reading
  readonly titleRef: Ref<HTMLHeadingElement>
  readonly selection: TextSelection | null
  readonly onBack: () => void
  readonly onNewest: () => void
  readonly onStrike: (words: string) => void
}

/** What a source is: its title, where and when it was read, what came of it, and what can be done with it. */
export function ReadingHead(props: ReadingHeadProps) {
  const { reading, titleRef, onNewest } = props
  const { source, capture, newest } = reading
  const project = useWorkspaceState((state) => state.view?.project)
  const captures = useWorkspaceState((state) => state.view?.captures)
  const workspace = useWorkspace()
  const [isEditing, setEditing] = useState(false)
  const isUsedHere = project !== undefined && source.projects.includes(project)
  const own = [...(captures?.values() ?? [])].filter((head) => head.source === source.id).map(({ id }) => id)
  const nodes = [...new Set([source.id, ...own, ...(capture ? [capture.id] : [])])]
  return (
    <div className="st-reading-head st-scroll">
      <Bar {...props} isUsedHere={isUsedHere} onEdit={() => setEditing(true)} />
      {isEditing ? (
        <SourceFields source={source} onClose={() => setEditing(false)} />
      ) : (
        <>
          <h3 ref={titleRef} tabIndex={-1} className="st-reading-title">
            {titleOf(source)}
          </h3>
          {source.address === null ? null : <Address address={source.address} />}
        </>
      )}
      <p className="st-source-facts">{factsOf(reading)}</p>
      {capture && newest !== capture.id ? (
        <p className="st-reading-note">
          This is an earlier capture of it. <Button onClick={onNewest}>Show the newest</Button>
        </p>
      ) : null}
      {isUsedHere ? null : (
        <p className="st-reading-note">
          This project does not use it.{' '}
          <Button onClick={() => void joinSource(workspace, source)}>Use it here</Button>
        </p>
      )}
      <CameOfSource nodes={nodes} />
    </div>
  )
}

function factsOf({ source, capture }: Reading): string {
  const { word } = sourceKindFaces[source.kind]
  return capture
    ? `${word}, captured ${dayAndTimeOf(capture.taken)}`
    : `${word}, added ${dayAndTimeOf(source.added)}`
}

interface BarProps extends ReadingHeadProps {
  readonly isUsedHere: boolean
  readonly onEdit: () => void
}

function Bar({ reading, selection, isUsedHere, onBack, onStrike, onEdit }: BarProps) {
  const workspace = useWorkspace()
  const { source } = reading
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
        lines={[
          {
            id: 'carry',
            word: 'Carry the selected words…',
            icon: CarryIcon,
            hint: 'Alt+C',
            disabledBecause: selection ? undefined : 'Select them in the text first.',
            onChoose: () => selection?.carry(),
          },
          { id: 'edit', word: 'Rename or change its address', icon: AmendIcon, onChoose: onEdit },
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
        ]}
        trigger={(attributes) => (
          <Button {...attributes} look="quiet" icon={MoreIcon} label="More for this source" />
        )}
      />
    </div>
  )
}

/** An address leads nowhere by itself: pressing it shows it whole, to be copied. */
function Address({ address }: { readonly address: Source['address'] & string }) {
  const workspace = useWorkspace()
  const id = useId()
  const [isOpen, setOpen] = useState(false)
  const copy = async () => {
    const result = await workspace.host.copyText({ text: address })
    workspace.say(result.ok ? 'done' : 'problem', result.ok ? 'Address copied.' : result.sentence)
  }
  return (
    <>
      <button
        type="button"
        className="st-address"
        aria-expanded={isOpen}
        aria-controls={id}
        aria-label={`Address: ${address}`}
        onClick={() => setOpen(!isOpen)}
      >
        {shortAddress(address)}
      </button>
      <div id={id} className="st-address-whole" hidden={!isOpen}>
        <span className="st-mono">{address}</span>
        <Button icon={CopyIcon} onClick={() => void copy()}>
          Copy
        </Button>
      </div>
    </>
  )
}
