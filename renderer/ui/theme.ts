/** The person's choice of face, written to the document as attributes that theme.css reads. */

export const themeChoices = ['system', 'light', 'dark'] as const
export type ThemeChoice = (typeof themeChoices)[number]

/** 'bench' enlarges everything for reading at arm's length. */
export const textSizes = ['normal', 'bench'] as const
export type TextSize = (typeof textSizes)[number]

export interface Face {
  readonly theme: ThemeChoice
  readonly size: TextSize
}

export const defaultFace: Face = { theme: 'system', size: 'normal' }

/** Shows a face. The root is a parameter so that a preview can be drawn elsewhere. */
export function applyFace(face: Face, root: HTMLElement = document.documentElement): void {
  root.dataset['theme'] = face.theme
  root.dataset['size'] = face.size
}

/** Says whether an unknown value, for instance one kept from an earlier session, is a face. */
export function isFace(value: unknown): value is Face {
  if (typeof value !== 'object' || value === null) return false
  const { theme, size } = value as Record<string, unknown>
  return themeChoices.includes(theme as ThemeChoice) && textSizes.includes(size as TextSize)
}
