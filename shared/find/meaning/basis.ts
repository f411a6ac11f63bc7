/**
 * The directions in which the words of a matrix differ most: an orthonormal basis of the space of its greatest singular
 * vectors, by orthogonal iteration from a random start (Halko, Martinsson, Tropp: Finding structure with randomness, SIAM
 * Review 53(2), 2011). Every sum runs in a fixed order, so that the same matrix gives the same numbers.
 */

/** A sparse matrix of words by documents; see TermMatrix for starts and columns. */
export interface WeightedMatrix {
  readonly words: number
  readonly documents: number
  readonly starts: Uint32Array
  readonly columns: Uint32Array
  readonly weights: Float32Array
}

const ROUNDS = 3

/** @returns words × size numbers, word by word; fewer than `size` directions are left where the matrix has no more */
export function findBasis(matrix: WeightedMatrix, size: number): Float32Array {
  let basis = randomStart(matrix.words * size)
  makeOrthonormal(basis, matrix.words, size)
  for (let round = 0; round < ROUNDS; round++) {
    basis = timesTransposed(matrix, times(matrix, basis, size), size)
    makeOrthonormal(basis, matrix.words, size)
  }
  return basis
}

/** Documents × size: the transposed matrix by the basis. */
function times(
  { words, documents, starts, columns, weights }: WeightedMatrix,
  basis: Float32Array,
  size: number,
): Float32Array {
  const product = new Float32Array(documents * size)
  for (let word = 0; word < words; word++)
    for (let cell = starts[word]!; cell < starts[word + 1]!; cell++)
      addScaled(product, columns[cell]! * size, basis, word * size, weights[cell]!, size)
  return product
}

/** Words × size: the matrix by what {@link times} gives. */
function timesTransposed(
  { words, starts, columns, weights }: WeightedMatrix,
  by: Float32Array,
  size: number,
): Float32Array {
  const product = new Float32Array(words * size)
  for (let word = 0; word < words; word++)
    for (let cell = starts[word]!; cell < starts[word + 1]!; cell++)
      addScaled(product, word * size, by, columns[cell]! * size, weights[cell]!, size)
  return product
}

function addScaled(
  into: Float32Array,
  at: number,
  from: Float32Array,
  start: number,
  by: number,
  size: number,
): void {
  for (let of = 0; of < size; of++) into[at + of]! += by * from[start + of]!
}

/** Modified Gram and Schmidt over the columns of a matrix that is stored row by row; what depends on others becomes zero. */
function makeOrthonormal(matrix: Float32Array, rows: number, size: number): void {
  const columns = Array.from({ length: size }, (_, column) => {
    const own = new Float64Array(rows)
    for (let row = 0; row < rows; row++) own[row] = matrix[row * size + column]!
    return own
  })
  for (const [at, column] of columns.entries()) {
    const before = Math.sqrt(product(column, column))
    for (let of = 0; of < at; of++) takeOut(column, columns[of]!)
    const length = Math.sqrt(product(column, column))
    const by = length > before * 1e-6 ? 1 / length : 0
    for (let row = 0; row < rows; row++) {
      column[row]! *= by
      matrix[row * size + at] = column[row]!
    }
  }
}

function takeOut(column: Float64Array, direction: Float64Array): void {
  const share = product(column, direction)
  for (let row = 0; row < column.length; row++) column[row]! -= share * direction[row]!
}

function product(one: Float64Array, other: Float64Array): number {
  let sum = 0
  for (let row = 0; row < one.length; row++) sum += one[row]! * other[row]!
  return sum
}

/** Numbers from -1 to 1 that are always the same (mulberry32). */
function randomStart(length: number): Float32Array {
  let state = 1
  return Float32Array.from({ length }, () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2147483648 - 1
  })
}
