/** Asks for the name that stands in exports. */
import { useState } from 'react'
import { keepPerson, who } from '../store/person.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, Dialog, TextInput } from '../ui/index.ts'

export function PersonName({ onDone }: { readonly onDone: () => void }) {
  const { registry } = useWorkspace().parts
  const [name, setName] = useState(who() ?? '')
  const keep = async (): Promise<void> => {
    await keepPerson(registry, name)
    onDone()
  }
  return (
    <Dialog title="Your name, for exports" onClose={onDone}>
      <form
        className="st-first-form"
        onSubmit={(event) => {
          event.preventDefault()
          void keep()
        }}
      >
        <TextInput
          label="Your name, for exports (optional)"
          hint="Stands with what you do from now on, in every lab. Empty for none."
          value={name}
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
          data-first
        />
        <Button type="submit" look="strong">
          Keep
        </Button>
      </form>
    </Dialog>
  )
}
