/** Every part alone, on each of the three papers. */
import { useState } from 'react'
import {
  Badge,
  Button,
  Confirm,
  Dialog,
  EmptyState,
  ErrorSentence,
  Kbd,
  KindTag,
  LinkBadge,
  Menu,
  MenuAt,
  Notices,
  ProgressLine,
  TextArea,
  TextInput,
  type MenuLine,
  type Notice,
} from '../../renderer/ui/index.ts'
import {
  AddIcon,
  CarryIcon,
  CopyIcon,
  ExportIcon,
  OpenIcon,
  SourcesIcon,
  StrikeOutIcon,
  TraceIcon,
  UndoIcon,
} from '../../renderer/ui/icons.tsx'
import { entryKinds } from '../../shared/lab/model.ts'

const landings: readonly MenuLine[] = [
  { kind: 'heading', id: 'h', word: 'Carry to' },
  { id: 'e', word: 'Expect of step 4', hint: 'usual', onChoose: () => undefined },
  { id: 'n', word: 'New step after 4', onChoose: () => undefined },
  {
    id: 'w',
    word: 'Why of step 4',
    disabledBecause: 'Step 4 has a why already. Open it to add to it.',
    onChoose: () => undefined,
  },
  { kind: 'rule', id: 'r' },
  { id: 'c', word: 'Copy', icon: CopyIcon, hint: 'Ctrl+C', onChoose: () => undefined },
  { id: 's', word: 'Strike out…', icon: StrikeOutIcon, isDanger: true, onChoose: () => undefined },
]

function Sheet({ band }: { readonly band: 'sources' | 'journal' | 'procedure' }) {
  return (
    <section className={`st-pane st-pane--${band} gallery-sheet`} aria-label={band}>
      <div className="st-button-row">
        <Button icon={AddIcon}>Plain</Button>
        <Button look="quiet" icon={TraceIcon}>
          Quiet
        </Button>
        <Button look="strong" icon={CarryIcon}>
          Strong
        </Button>
        <Button look="danger">Danger</Button>
        <Button icon={UndoIcon} label="Undo" keys="Ctrl+Z" look="quiet" />
        <Button pressed>Pressed</Button>
        <Button disabled icon={ExportIcon}>
          Not now
        </Button>
        <Menu
          label="Carry to"
          lines={landings}
          trigger={(attributes) => (
            <Button {...attributes} icon={OpenIcon}>
              Menu
            </Button>
          )}
        />
      </div>
      <div className="st-button-row">
        {entryKinds.map((kind) => (
          <KindTag key={kind} kind={kind} />
        ))}
      </div>
      <div className="st-button-row">
        <LinkBadge type="quotes" />
        <LinkBadge type="derives" />
        <LinkBadge type="derives" isLoose />
        <LinkBadge type="cites" />
        <Badge>3 carried</Badge>
        <Kbd keys="Ctrl+Shift+Enter" />
      </div>
      <TextInput
        label="Address"
        placeholder="https://"
        hint="A page, or the name of a file."
        isMono
        defaultValue="https://docs.example.org/O0l1I"
      />
      <TextInput label="Title" error="The title is empty. Give it one word or more." />
      <TextArea label="Purpose" rows={2} defaultValue="For when the card wears out." />
      <ProgressLine words="Reading boot-before.txt" share={0.62} />
      <ErrorSentence
        happened="rack-photo.bin could not be read as text."
        safe="Nothing was added, and your file is untouched."
        next="Drop a .md, .txt or .html file, or paste the text."
      />
      <EmptyState
        icon={SourcesIcon}
        purpose="Sources are what you read before and while you work."
        action={<Button icon={AddIcon}>Add a source</Button>}
        hint="Or drop a file, a link or a piece of text here."
      />
    </section>
  )
}

const notices: readonly Notice[] = [
  {
    id: '1',
    tone: 'done',
    words: 'Carried to step 4, expect.',
    action: { word: 'Undo', keys: 'Ctrl+Z', onAct: () => undefined },
  },
  {
    id: '2',
    tone: 'problem',
    words:
      'The lab file could not be written: the disk is full. Everything in the lab is safe. Choose another place.',
  },
]

export function Parts({ shows }: { readonly shows: string }) {
  const [said, setSaid] = useState(notices)
  const [open, setOpen] = useState(shows)
  return (
    <div className="gallery-sheets">
      <Sheet band="sources" />
      <Sheet band="journal" />
      <Sheet band="procedure" />
      <Notices
        notices={said}
        onDismiss={(id) => setSaid((all) => all.filter((notice) => notice.id !== id))}
      />
      {open === 'dialog' ? (
        <Dialog
          title="Add a source"
          onClose={() => setOpen('')}
          actions={
            <>
              <Button onClick={() => setOpen('')}>Close</Button>
              <Button look="strong">Add source</Button>
            </>
          }
        >
          <TextInput label="Address" isMono hint="A page, or the name of a file." data-first />
          <TextArea label="Text" rows={4} hint="Paste what you read. It is kept as it was at this moment." />
        </Dialog>
      ) : null}
      {open === 'confirm' ? (
        <Confirm
          title="Strike this text out?"
          act="Strike out"
          onConfirm={() => setOpen('')}
          onClose={() => setOpen('')}
        >
          <p>
            The text goes from this entry and from everything that was carried from it. Its place and moment
            stay.
          </p>
          <p>
            This cannot be undone. The files on disk may hold the bytes until they are rewritten, so change
            the secret too.
          </p>
        </Confirm>
      ) : null}
      {open === 'menu' ? (
        <MenuAt
          label="Carry to"
          lines={landings}
          at={{ left: 560, top: 200, right: 700, bottom: 220 }}
          onClose={() => setOpen('')}
        />
      ) : null}
    </div>
  )
}
