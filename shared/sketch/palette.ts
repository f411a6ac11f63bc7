/**
 * The colours of a diagram: the program's own tokens, so that one drawing fits the light and the dark face. While it is
 * drawn each token is stood for by a colour that nobody would choose, since the library computes with colours.
 */

/** The tokens that a drawing may use, with the colours that a saved file gets: those of the light face. */
export const tokens = {
  '--ink': '#23211d',
  '--ink-soft': '#43403a',
  '--rule-strong': '#625d53',
  '--paper-raised': '#fdfcfa',
  '--paper': '#fdfcfa',
  '--mark-derives': '#ecdcc6',
  '--sketch-group': '#ece9e2',
  '--sketch-fill-1': '#d3e4dd',
  '--sketch-fill-2': '#ead9c4',
  '--sketch-fill-3': '#d3dcee',
  '--sketch-fill-4': '#e6d5ea',
  '--sketch-fill-5': '#e2e3bf',
  '--sketch-fill-6': '#ecd5d0',
  '--accent-procedure': '#0f4c55',
  '--accent-journal': '#73380e',
  '--kind-action': '#1c4189',
  '--kind-decision': '#672a78',
  '--accent-sources': '#434c10',
  '--danger': '#911111',
} as const

export type Token = keyof typeof tokens
const names = Object.keys(tokens) as Token[]

/** The colour that stands for a token while it is drawn. */
export function standIn(token: Token): string {
  return `#e0${(0x1d + names.indexOf(token)).toString(16).padStart(2, '0')}f7`
}

const byStandIn = new Map(names.map((name) => [standIn(name), name]))

/** How a token is written in a drawing. */
export const asValue = (token: Token): string => `var(${token})`

/** The token that a colour stands for. */
export function maybeToken(colour: string): Token | undefined {
  return byStandIn.get(colour.trim().toLowerCase())
}

/** Says whether a value names one of the tokens. */
export function isTokenValue(value: string): boolean {
  return names.some((name) => value === asValue(name))
}

/** The value with every token replaced by its colour in the light face. */
export function toLight(value: string): string {
  return value.replace(/var\((--[a-z0-9-]+)\)/gu, (whole, name: string) => tokens[name as Token] ?? whole)
}

/** Fills for kinds of things told apart, and a line that goes with each. Text on a fill is ink. */
export const fills: readonly Token[] = [
  '--sketch-fill-1',
  '--sketch-fill-2',
  '--sketch-fill-3',
  '--sketch-fill-4',
  '--sketch-fill-5',
  '--sketch-fill-6',
]
export const lines: readonly Token[] = [
  '--accent-procedure',
  '--accent-journal',
  '--kind-action',
  '--kind-decision',
  '--accent-sources',
  '--danger',
]
