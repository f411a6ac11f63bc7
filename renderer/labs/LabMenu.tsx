/** The lab's name, and what can be done with labs as a whole. */
import { useState } from 'react'
import { useOffered } from '../store/offers.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { Button, Dialog, Menu, TextInput, type MenuLine } from '../ui/index.ts'
import { AddIcon, AmendIcon, ExportIcon, LabFileInIcon, LabFileOutIcon, LabIcon } from '../ui/icons.tsx'
import { beginLab, renameLab } from './labs.ts'
import { PersonName } from './PersonName.tsx'
import { useLabFile } from './useLabFile.ts'

type Asking = 'nothing' | 'new' | 'rename' | 'name'

export function LabMenu() {
  const workspace = useWorkspace()
  const labs = useWorkspaceState((state) => state.labs)
  const open = useWorkspaceState((state) => state.lab)
  const [asking, setAsking] = useState<Asking>('nothing')
  const project = useWorkspaceState((state) => state.view?.project)
  const { takeOut, bringIn } = useLabFile()
  const lab = labs.find(({ id }) => id === open?.id)
  const lines: MenuLine[] = [
    { kind: 'heading', id: 'labs', word: 'Labs. Nothing crosses from one to another.' },
    ...labs.map((one) => ({
      id: one.id,
      word: one.name,
      isChosen: one.id === lab?.id,
      onChoose: () => void workspace.openLab(one.id),
    })),
    { kind: 'rule', id: 'rule' },
    { id: 'out', word: 'Save the whole lab to a file', icon: LabFileOutIcon, onChoose: () => void takeOut() },
    { id: 'in', word: 'Bring in a lab file', icon: LabFileInIcon, onChoose: () => void bringIn() },
    ...(project
      ? [
          {
            id: 'provenance',
            word: 'Export its provenance…',
            icon: ExportIcon,
            onChoose: () => workspace.set({ panel: { kind: 'provenance', of: 'lab' } }),
          } as const,
        ]
      : []),
    { id: 'name', word: 'Your name, for exports…', icon: AmendIcon, onChoose: () => setAsking('name') },
    { id: 'rename', word: 'Rename this lab', icon: AmendIcon, onChoose: () => setAsking('rename') },
    { id: 'new', word: 'Start another lab', icon: AddIcon, onChoose: () => setAsking('new') },
  ]
  useOffered(() => ({ about: 'Lab', lines }))
  return (
    <>
      <Menu
        label="Labs"
        lines={lines}
        trigger={(attributes) => (
          <Button {...attributes} className="st-button--name" icon={LabIcon}>
            {lab?.name ?? 'Lab'}
          </Button>
        )}
      />
      {asking === 'name' ? <PersonName onDone={() => setAsking('nothing')} /> : null}
      {asking === 'nothing' || asking === 'name' ? null : (
        <LabName lab={asking === 'rename' ? (lab ?? null) : null} onDone={() => setAsking('nothing')} />
      )}
    </>
  )
}

/** Asks for a lab's name: of a new one where `lab` is null. */
function LabName({ lab, onDone }: { readonly lab: Lab | null; readonly onDone: () => void }) {
  const workspace = useWorkspace()
  const [name, setName] = useState(lab?.name ?? '')
  const done = async (): Promise<void> => {
    const { registry } = workspace.parts
    if (lab) {
      await renameLab(registry, lab, name)
      workspace.set({ labs: await registry.labs() })
    } else {
      const made = await beginLab(registry, workspace.requireLab().surroundings, name)
      await workspace.openLab(made.id)
    }
    onDone()
  }
  return (
    <Dialog title={lab ? 'Rename this lab' : 'Start another lab'} onClose={onDone}>
      <form
        className="st-first-form"
        onSubmit={(event) => {
          event.preventDefault()
          void done()
        }}
      >
        <TextInput
          label="Name"
          hint={lab ? undefined : 'An empty lab of its own. Nothing crosses from one lab to another.'}
          value={name}
          onChange={(event) => setName(event.target.value)}
          data-first
        />
        <Button type="submit" look="strong" disabled={name.trim() === ''}>
          {lab ? 'Rename' : 'Start the lab'}
        </Button>
      </form>
    </Dialog>
  )
}
