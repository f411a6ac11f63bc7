/** Macros of mdoc(7) that put marks around words. */

/** Around the rest of a line. */
export const enclosures: ReadonlyMap<string, readonly [string, string]> = new Map([
  ['Op', ['[', ']']],
  ['Aq', ['⟨', '⟩']],
  ['Bq', ['[', ']']],
  ['Brq', ['{', '}']],
  ['Dq', ['“', '”']],
  ['Pq', ['(', ')']],
  ['Ql', ['‘', '’']],
  ['Qq', ['"', '"']],
  ['Sq', ['‘', '’']],
])

/** Around whatever stands up to the macro that closes. */
export const explicitOpen: ReadonlyMap<string, string> = new Map([
  ['Oo', '['],
  ['Ao', '⟨'],
  ['Bo', '['],
  ['Bro', '{'],
  ['Do', '“'],
  ['Po', '('],
  ['Qo', '"'],
  ['So', '‘'],
])

export const explicitClose: ReadonlyMap<string, string> = new Map([
  ['Oc', ']'],
  ['Ac', '⟩'],
  ['Bc', ']'],
  ['Brc', '}'],
  ['Dc', '”'],
  ['Pc', ')'],
  ['Qc', '"'],
  ['Sc', '’'],
])
