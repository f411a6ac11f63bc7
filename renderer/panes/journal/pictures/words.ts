import type { FoundPicture } from './pictureUrls.ts'

export const NO_DESCRIPTION = 'No description yet'

/** Why a picture cannot be seen, and what is left. */
export function sentenceOf(kind: Exclude<FoundPicture['kind'], 'picture'>): string {
  switch (kind) {
    case 'struck out':
      return 'This picture was struck out. Its description stays.'
    case 'missing':
      return 'This lab does not hold the picture’s bytes. Its description stays.'
    case 'no picture':
      return 'What is kept here is no picture that can be shown. Its bytes are safe.'
  }
}
