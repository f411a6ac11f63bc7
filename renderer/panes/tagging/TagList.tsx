import { CloseIcon } from '../../ui/icons.tsx'
import { useRoving } from './useRoving.ts'

export interface TagListProps {
  readonly tags: readonly string[]
  readonly onRemove: (tag: string) => void
  /** Gets the focus when the last tag went. */
  readonly onLeave: () => void
}

/** The tags that a thing has, each with a button that takes it off. */
export function TagList({ tags, onRemove, onLeave }: TagListProps) {
  const roving = useRoving('.st-tag-remove', tags.length, onLeave)
  if (tags.length === 0) return null
  return (
    <ul
      ref={roving.ref}
      className="st-tag-list"
      aria-label="Tags"
      onFocus={roving.onFocus}
      onBlur={roving.onBlur}
      onKeyDown={roving.onKeyDown}
    >
      {tags.map((tag, place) => (
        <li key={tag} className="st-tag">
          <span className="st-tag-word">{tag}</span>
          <button
            type="button"
            className="st-tag-remove"
            aria-label={`Take off the tag ${tag}`}
            aria-keyshortcuts="Delete"
            tabIndex={place === roving.place ? 0 : -1}
            onClick={() => onRemove(tag)}
            onKeyDown={(event) => {
              if (event.key !== 'Delete' && event.key !== 'Backspace') return
              event.preventDefault()
              event.stopPropagation()
              onRemove(tag)
            }}
          >
            <CloseIcon />
          </button>
        </li>
      ))}
    </ul>
  )
}
