/** A person's own words about a source, changed in place. */
import { useState, type KeyboardEvent } from 'react'
import { changeSource } from '../../../../shared/lab/acts.ts'
import type { Source } from '../../../../shared/lab/model.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, TextArea } from '../../../ui/index.ts'
import { AmendIcon } from '../../../ui/icons.tsx'

export function Remark({ source }: { readonly source: Source }) {
  const workspace = useWorkspace()
  const [typed, setTyped] = useState<string | null>(null)
  const save = async () => {
    const remark = (typed ?? '').trim()
    const isKept =
      remark === source.remark ||
      (await workspace.commit(changeSource(workspace.requireLab().surroundings, source, { remark })))
    if (isKept) setTyped(null)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setTyped(null)
    else if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) void save()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  if (typed === null)
    return (
      <div className="st-remark">
        {source.remark === '' ? null : <p className="st-remark-words">{source.remark}</p>}
        <Button look="quiet" icon={AmendIcon} onClick={() => setTyped(source.remark)}>
          {source.remark === '' ? 'Add a remark' : 'Change the remark'}
        </Button>
      </div>
    )
  return (
    <div className="st-remark" onKeyDown={onKeyDown}>
      <TextArea
        label="Remark"
        rows={3}
        autoFocus
        value={typed}
        onChange={({ target }) => setTyped(target.value)}
      />
      <div className="st-button-row">
        <Button look="strong" keys="Ctrl+Enter" onClick={() => void save()}>
          Save
        </Button>
        <Button look="quiet" onClick={() => setTyped(null)}>
          Leave it as it is
        </Button>
      </div>
    </div>
  )
}
