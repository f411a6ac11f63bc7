/** The page that the reader is on, and the way to another one. */
import { useState, type FormEvent } from 'react'
import type { PageStart } from '../../../../shared/lab/model.ts'
import { Button } from '../../../ui/index.ts'

export interface PageFieldProps {
  readonly pages: readonly PageStart[]
  /** Its place in `pages`, from 0. */
  readonly now: number
  readonly onGo: (page: PageStart) => void
}

/** A page goes by the label that is printed on it, and by its place where no label is so. */
export function PageField({ pages, now, onGo }: PageFieldProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const [error, setError] = useState('')
  const label = pages[Math.max(0, now)]!.label
  const go = (event: FormEvent) => {
    event.preventDefault()
    const wanted = (typed ?? label).trim()
    const page = pages.find((one) => one.label === wanted) ?? pages[Number(wanted) - 1]
    setError(page ? '' : `There is no page ${wanted}.`)
    if (!page) return
    setTyped(null)
    onGo(page)
  }
  return (
    <form className="st-page-field" onSubmit={go} aria-label="Page">
      <label>
        <span>Page</span>
        <input
          className="st-input"
          inputMode="text"
          size={4}
          value={typed ?? label}
          aria-invalid={error !== '' || undefined}
          onFocus={({ target }) => target.select()}
          onChange={({ target }) => {
            setTyped(target.value)
            setError('')
          }}
          onBlur={() => setTyped(null)}
          onKeyDown={(event) => {
            if (event.key !== 'Escape' || typed === null) return
            event.preventDefault()
            event.stopPropagation()
            setTyped(null)
            setError('')
          }}
        />
      </label>
      {/* One line whatever it says, so that the text below never moves away from under the pointer. */}
      <span role="status" className={error === '' ? 'st-page-of' : 'st-page-of st-page-error'}>
        {error === '' ? `of ${pages.length}` : error}
      </span>
      <Button look="quiet" type="submit" onPointerDown={(event) => event.preventDefault()}>
        Go
      </Button>
    </form>
  )
}
