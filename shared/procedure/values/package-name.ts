/** Names of packages: Debian Policy Manual 5.6.1 and 5.6.7. */
import { right, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

export function isPackageName(text: string): boolean {
  return /^[a-z\d][a-z\d+.-]+$/.test(text)
}

function checkPackage(text: string): ValueCheck {
  if (isPackageName(text)) return right()
  if (text.length < 2) return wrong('form', 'A package name has at least two characters.')
  const [name = '', more] = text.split(/[=:/](.*)/s)
  if (more !== undefined && isPackageName(name))
    return wrong(
      'form',
      'A version, an architecture or a release follows the name. The name alone ends before it.',
      offer(name, 'The name alone.'),
    )
  if (/[A-Z]/.test(text))
    return wrong(
      'form',
      'A package name has small letters only.',
      offer(text.toLowerCase(), 'With small letters.'),
    )
  if (text.includes('_'))
    return wrong(
      'form',
      'A package name has no underscore; in file names of packages it parts name and version.',
      offer(text.replaceAll('_', '-'), 'With hyphens.'),
    )
  if (/^[+.-]/.test(text)) return wrong('form', 'A package name begins with a letter or a digit.')
  return wrong('form', 'A package name has small letters, digits, “+”, “-” and “.” only, as in chrony.')
}

function offer(text: string, sentence: string): Mend | null {
  return isPackageName(text) ? { text, sentence } : null
}

export const packageName: TypeOfValue = {
  check: checkPackage,
  canonical: (text) => (isPackageName(text) ? text : null),
  example: 'chrony',
}
