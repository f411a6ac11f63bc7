/** A kept picture where it stands in a text: small, and large when it is pressed. */
import { useState, type ReactNode } from 'react'
import { useIsNear } from '../../../sketch/useSketch.ts'
import type { KeptPictureProps } from '../../../ui/blobs.tsx'
import { SourcePictureIcon } from '../../../ui/icons.tsx'
import { PictureLarge } from './PictureLarge.tsx'
import type { FoundPicture } from './pictureUrls.ts'
import { usePicture } from './usePicture.ts'
import { NO_DESCRIPTION, sentenceOf } from './words.ts'
import './pictures.css'

export function KeptPicture({ sha256, description, name, place, isMarked }: KeptPictureProps): ReactNode {
  const { ref, isNear } = useIsNear()
  const found = usePicture(sha256, isNear)
  const [isLarge, setLarge] = useState(false)
  return (
    <span
      ref={ref}
      className={`st-picture${isMarked ? ' st-picture--marked' : ''}`}
      data-picture={sha256}
      // What is selected in a picture stands for its whole text; see Markdown.tsx.
      data-from={place.start}
      data-to={place.end}
      data-whole=""
    >
      <Small found={found} description={description} onOpen={() => setLarge(true)} />
      <span className={`st-picture-words${description === '' ? ' st-picture-words--none' : ''}`}>
        {description || NO_DESCRIPTION}
      </span>
      {isLarge ? (
        <PictureLarge first={{ sha256, description, name }} onClose={() => setLarge(false)} />
      ) : null}
    </span>
  )
}

interface SmallProps {
  readonly found: FoundPicture | null
  readonly description: string
  readonly onOpen: () => void
}

function Small({ found, description, onOpen }: SmallProps): ReactNode {
  if (found === null) return <span className="st-picture-wait" role="img" aria-label="Picture" />
  if (found.kind !== 'picture')
    return (
      <span className="st-picture-absent">
        <SourcePictureIcon />
        <span>{sentenceOf(found.kind)}</span>
      </span>
    )
  return (
    <button
      type="button"
      className="st-picture-open"
      aria-label={`${description || 'Picture without a description'}: open large`}
      onClick={(event) => {
        event.stopPropagation()
        onOpen()
      }}
    >
      <img
        className="st-picture-small"
        src={found.url}
        alt=""
        loading="lazy"
        decoding="async"
        draggable={false}
      />
    </button>
  )
}
