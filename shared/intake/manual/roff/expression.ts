/** Numbers of roff: scaled, and calculated from left to right without precedence (roff(7), groff(7)). */

/** Basic units of a terminal, of which an inch has 240. */
const units: Readonly<Record<string, number>> = {
  i: 240,
  c: 240 / 2.54,
  P: 40,
  p: 240 / 72,
  m: 24,
  M: 0.24,
  n: 24,
  v: 40,
  u: 1,
  s: 1,
  z: 1,
  f: 65536,
}

interface Reader {
  readonly text: string
  at: number
  readonly unit: string
  depth: number
}

export interface Calculated {
  readonly value: number
  /** Where the expression ended. */
  readonly end: number
}

/**
 * The value at the beginning of a text.
 * @param unit the unit of numbers that name none
 * @returns undefined where no number stands there
 */
export function maybeNumber(text: string, unit: string): Calculated | undefined {
  const reader: Reader = { text, at: 0, unit, depth: 0 }
  const value = maybeSum(reader)
  return value === undefined ? undefined : { value, end: reader.at }
}

function maybeSum(reader: Reader): number | undefined {
  let value = maybeTerm(reader)
  while (value !== undefined) {
    const operator = /^(?:<=|>=|==|<\?|>\?|[-+*/%<>=&:])/u.exec(
      reader.text.slice(reader.at, reader.at + 2),
    )?.[0]
    if (operator === undefined) return value
    reader.at += operator.length
    const right = maybeTerm(reader)
    if (right === undefined) return value
    value = calculate(operator, value, right)
  }
  return value
}

function maybeTerm(reader: Reader): number | undefined {
  while (reader.text[reader.at] === ' ' && reader.depth > 0) reader.at += 1
  const sign = reader.text[reader.at]
  if (sign === '-' || sign === '+' || sign === '|') {
    reader.at += 1
    const value = maybeTerm(reader)
    return value !== undefined && sign === '-' ? -value : value
  }
  if (sign === '(') return maybeInner(reader)
  const found = /^(\d*\.?\d+|\d+\.)([icPpmMnvuszf])?/u.exec(reader.text.slice(reader.at, reader.at + 40))
  if (!found) return undefined
  reader.at += found[0].length
  return Math.trunc(Number(found[1]) * (units[found[2] ?? reader.unit] ?? 1))
}

function maybeInner(reader: Reader): number | undefined {
  if (reader.depth > 50) return undefined
  reader.at += 1
  reader.depth += 1
  const value = maybeSum(reader)
  while (reader.text[reader.at] === ' ') reader.at += 1
  if (reader.text[reader.at] === ')') reader.at += 1
  reader.depth -= 1
  return value
}

function calculate(operator: string, left: number, right: number): number {
  switch (operator) {
    case '+':
      return left + right
    case '-':
      return left - right
    case '*':
      return left * right
    case '/':
      return right === 0 ? 0 : Math.trunc(left / right)
    case '%':
      return right === 0 ? 0 : left % right
    case '&':
      return left > 0 && right > 0 ? 1 : 0
    case ':':
      return left > 0 || right > 0 ? 1 : 0
    case '<?':
      return Math.min(left, right)
    case '>?':
      return Math.max(left, right)
    default:
      return compare(operator, left, right) ? 1 : 0
  }
}

function compare(operator: string, left: number, right: number): boolean {
  if (operator === '<') return left < right
  if (operator === '>') return left > right
  if (operator === '<=') return left <= right
  if (operator === '>=') return left >= right
  return left === right
}
