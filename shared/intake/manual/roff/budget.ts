/** Bounds for reading a page: roff is a language with loops and recursion, and a page is not to be trusted with time. */

/** Thrown where a page asks for more than any page needs; it never leaves the reader. */
export class Exhausted extends Error {}

const maxSteps = 500_000
const maxCharacters = 60_000_000
const maxDepth = 250
/** Blocks, pieces of paragraphs and cells of tables: what the tree is made of. */
const maxNodes = 300_000

/** Counts what reading costs. */
export class Budget {
  #steps = 0
  #characters = 0
  #nodes = 0

  /** One line or one string more, of that many characters. */
  spend(characters: number): void {
    this.#steps += 1
    this.#characters += characters
    if (this.#steps > maxSteps || this.#characters > maxCharacters) throw new Exhausted()
  }

  /** So many nodes of the tree more. */
  spendNodes(nodes: number): void {
    this.#nodes += nodes
    if (this.#nodes > maxNodes) throw new Exhausted()
  }

  checkDepth(depth: number): void {
    if (depth > maxDepth) throw new Exhausted()
  }
}
