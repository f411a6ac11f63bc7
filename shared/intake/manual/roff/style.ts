/** Fonts of a page as its readers see them, and text that is set in one. */

/** Roman, bold, italic, both, or of fixed width. */
export type Font = 'R' | 'B' | 'I' | 'BI' | 'C'

export interface Run {
  readonly text: string
  readonly font: Font
}

const fonts: Readonly<Record<string, Font>> = {
  '1': 'R',
  R: 'R',
  TR: 'R',
  HR: 'R',
  '2': 'I',
  I: 'I',
  TI: 'I',
  HI: 'I',
  '3': 'B',
  B: 'B',
  TB: 'B',
  HB: 'B',
  '4': 'BI',
  BI: 'BI',
  C: 'C',
  CR: 'C',
  CW: 'C',
  CB: 'C',
  CI: 'C',
  CBI: 'C',
  CO: 'C',
  V: 'C',
  VB: 'C',
  L: 'C',
}

/** The font of a name, number or abstract style; roman for those that no terminal has. */
export function toFont(name: string): Font {
  return fonts[name] ?? 'R'
}

/** The font of now and the one before it, to which `\fP` leads back. */
export class Style {
  font: Font = 'R'
  #before: Font = 'R'

  set(name: string): void {
    const next = name === 'P' || name === '' ? this.#before : toFont(name)
    this.#before = this.font
    this.font = next
  }

  reset(): void {
    this.font = 'R'
    this.#before = 'R'
  }
}

/** Signs that stand for motions within a run; no page holds them, since they are no characters (Unicode, "Noncharacters"). */
export const motionBack = '\ufdd0'
export const motionOn = '\ufdd1'
/** A tab that a line was set with, where it may be the mark between a table's cells. */
export const tab = '\t'

/** Adds text in a font, to the last run where it has the same one. */
export function addText(runs: Run[], text: string, font: Font): void {
  if (text === '') return
  const last = runs.at(-1)
  if (last?.font === font) runs[runs.length - 1] = { text: last.text + text, font }
  else runs.push({ text, font })
}

export const wordsOfRuns = (runs: readonly Run[]): string => runs.map(({ text }) => text).join('')
