/** Choosing photos. The page's own field, since it tells when a file was last written, too. */
import { useRef, type ReactNode } from 'react'
import { Button } from '../../../ui/index.ts'
import { SourcePictureIcon } from '../../../ui/icons.tsx'

export interface PhotoFilesProps {
  readonly onFiles: (files: readonly File[]) => void
  /** Whether the keyboard begins here. */
  readonly isFirst: boolean
}

export function PhotoFiles({ onFiles, isFirst }: PhotoFilesProps): ReactNode {
  const field = useRef<HTMLInputElement>(null)
  return (
    <p className="st-photos-ways">
      <Button
        icon={SourcePictureIcon}
        onClick={() => field.current?.click()}
        {...(isFirst ? { 'data-first': '' } : {})}
      >
        {isFirst ? 'Choose photos…' : 'Choose more…'}
      </Button>
      <input
        ref={field}
        type="file"
        hidden
        multiple
        accept="image/png,image/jpeg,image/gif,image/webp,.heic,.heif"
        aria-label="Photos"
        onChange={(event) => {
          const files = [...(event.target.files ?? [])]
          // The same files may be chosen again after they were taken out of the list.
          event.target.value = ''
          onFiles(files)
        }}
      />
    </p>
  )
}
