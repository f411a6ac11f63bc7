/** Pictures in rendered Markdown whose bytes are kept under their SHA-256, where whoever shows the text can find them. */
import type { Element as HastElement } from 'hast'
import { createContext, use, type ComponentProps, type ComponentType, type ReactElement } from 'react'
import type { Range } from '../../shared/lab/model.ts'

export interface KeptPictureProps {
  /** Lower-case hex SHA-256 of the bytes. */
  readonly sha256: string
  /** What is to be seen, in words; empty where nobody has said it yet. */
  readonly description: string
  /** The name of the file that it came from; empty where it had none. */
  readonly name: string
  /** Where it stands in the Markdown. */
  readonly place: Range
  readonly isMarked: boolean
}

/** Provided by the screen; without it a kept picture is shown by its description. */
export const PictureContext = createContext<ComponentType<KeptPictureProps> | null>(null)

/** A picture in Markdown: its bytes stand in the text, or are kept. */
export function MarkdownPicture({
  node,
  ...rest
}: ComponentProps<'img'> & { readonly node?: HastElement }): ReactElement {
  const Shown = use(PictureContext)
  const { dataBlob, dataPictureFrom, dataPictureTo, dataMarked, alt, title } = node?.properties ?? {}
  if (dataBlob === undefined) return <img {...rest} />
  const description = String(alt ?? '')
  const place = { start: Number(dataPictureFrom), end: Number(dataPictureTo) }
  if (Shown)
    return (
      <Shown
        sha256={String(dataBlob)}
        description={description}
        name={String(title ?? '')}
        place={place}
        isMarked={dataMarked === true}
      />
    )
  return (
    <span className="picture" data-from={place.start} data-to={place.end} data-whole="">
      Picture: {description || 'no description yet'}
    </span>
  )
}
