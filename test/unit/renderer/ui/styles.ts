/** Reads the program's own style sheets well enough to check colours: rules, declarations, tokens. */
import { readdirSync, readFileSync } from 'node:fs'

const renderer = new URL('../../../../renderer/', import.meta.url)

export interface Rule {
  readonly file: string
  /** Media and container conditions around it, outermost first. */
  readonly within: readonly string[]
  readonly selector: string
  readonly declarations: ReadonlyMap<string, string>
}

/** Every rule of one style sheet, in order. */
export function rulesOf(file: string): Rule[] {
  const text = readFileSync(new URL(file, renderer), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '')
  const rules: Rule[] = []
  const open: string[] = []
  for (const [, before = '', brace = ''] of text.matchAll(/([^{}]*)([{}])/g)) {
    if (brace === '{') {
      open.push(before.trim().replace(/\s+/g, ' '))
      continue
    }
    const selector = open.pop() ?? ''
    if (before.trim() !== '')
      rules.push({ file, within: [...open], selector, declarations: declarationsIn(before) })
  }
  return rules
}

function declarationsIn(body: string): Map<string, string> {
  const lines = body.split(';').map((line) => line.trim())
  return new Map(
    lines
      .filter((line) => line.includes(':'))
      .map((line) => {
        const colon = line.indexOf(':')
        return [
          line.slice(0, colon).trim(),
          line
            .slice(colon + 1)
            .trim()
            .replace(/\s+/g, ' '),
        ] as const
      }),
  )
}

/** The style sheets of the kit and the frame. */
export function styleSheets(): string[] {
  return ['ui', 'frame'].flatMap((folder) =>
    readdirSync(new URL(folder, renderer))
      .filter((name) => name.endsWith('.css'))
      .map((name) => `${folder}/${name}`),
  )
}

export type Tokens = ReadonlyMap<string, string>

/** The tokens that hold for a selector of theme.css, over those of :root. */
export function tokensOf(selector: string, within: readonly string[] = []): Tokens {
  const rules = rulesOf('ui/theme.css')
  const matching = rules.filter(
    (rule) =>
      (rule.selector === ':root' && rule.within.length === 0) ||
      (rule.selector === selector && rule.within.join() === within.join()),
  )
  return new Map(matching.flatMap((rule) => [...rule.declarations]))
}
