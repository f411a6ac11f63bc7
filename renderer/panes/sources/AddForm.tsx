import type { ClipboardEvent, FormEvent } from 'react'
import { Button, TextArea, TextInput } from '../../ui/index.ts'
import type { SourceForm } from './form.ts'
import { WaysIn } from './taking/WaysIn.tsx'

/** Adding a source by hand: an address, a text, or a text with its address; and the other ways in. */
export function AddForm({ form }: { readonly form: SourceForm }) {
  const { fields, error, isAdding } = form
  const onSubmit = (event: FormEvent) => {
    event.preventDefault()
    void form.add()
  }
  return (
    <>
      <form className="st-source-form" aria-label="Add a source" noValidate onSubmit={onSubmit}>
        <TextInput
          label="Address"
          isMono
          inputMode="url"
          autoFocus
          autoComplete="off"
          spellCheck={false}
          value={fields.address}
          error={error ?? undefined}
          onChange={({ target }) => form.change({ address: target.value })}
        />
        <TextInput
          label="Title"
          autoComplete="off"
          placeholder="Taken from the rest if left empty"
          value={fields.title}
          onChange={({ target }) => form.change({ title: target.value })}
        />
        <TextArea
          label="Text"
          rows={4}
          placeholder="Paste a page or a text; without one only the address is kept"
          hint={
            fields.html === null ? undefined : 'A page: it is kept as Markdown, with its headings and links.'
          }
          value={fields.text}
          onChange={({ target }) => form.change({ text: target.value, html: null })}
          onPaste={(event) => takePage(event, form)}
        />
        <div className="st-button-row">
          <Button look="strong" type="submit" disabled={isAdding}>
            Add
          </Button>
          <Button look="quiet" onClick={form.giveUp}>
            Give up
          </Button>
        </div>
      </form>
      <WaysIn />
    </>
  )
}

/** A page that is pasted into the empty field is remembered with its markup. */
function takePage(event: ClipboardEvent, form: SourceForm): void {
  form.change({ wasPasted: true })
  const html = event.clipboardData.getData('text/html')
  if (html.trim() === '' || form.fields.text.trim() !== '') return
  event.preventDefault()
  form.change({ html, text: event.clipboardData.getData('text/plain'), wasPasted: true })
}
