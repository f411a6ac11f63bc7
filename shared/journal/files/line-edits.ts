/**
 * Which lines of two texts are gone and which have come: by E. W. Myers, "An O(ND) Difference Algorithm and Its
 * Variations" (1986), in the variation that needs linear space. Where several shortest answers exist, the one is chosen
 * that GNU diffutils gives ("Comparing and Merging Files with GNU diff and patch", 6 "diff Performance Tradeoffs"):
 * lines without a partner are set aside first, and a run of changed lines that could as well lie elsewhere is moved as
 * far down as it goes, or beside a change on the other side.
 */

/** For each line of either text, whether it is changed. */
export interface LineEdits {
  readonly gone: readonly boolean[]
  readonly come: readonly boolean[]
}

/** Unchanged lines beside the first and last change that are still looked at, so that a change can move across them. */
const HORIZON = 3
/** Edits after which a split that is good enough is taken. Time grows with the square of this. */
const COST = 4096

/** Compares two lists of lines. The same lists always give the same answer. */
export function compareLines(before: readonly string[], after: readonly string[]): LineEdits {
  const most = Math.min(before.length, after.length)
  let start = 0
  while (start < most && before[start] === after[start]) start++
  let end = 0
  while (end < most - start && before.at(-1 - end) === after.at(-1 - end)) end++
  start = Math.max(0, start - HORIZON)
  end = Math.max(0, end - HORIZON)
  const [a, b] = numbered([before, after].map((lines) => lines.slice(start, lines.length - end)))
  const [x, y] = [sideOf(a!), sideOf(b!)]
  const [keptX, keptY] = [setAside(x, y), setAside(y, x)]
  mark(x, y, keptX, keptY)
  settle(x, y)
  settle(y, x)
  const around = (side: Side, length: number): boolean[] => {
    const all = Array.from({ length }, () => false)
    side.changed.forEach((isChanged, at) => (all[start + at] = isChanged))
    return all
  }
  return { gone: around(x, before.length), come: around(y, after.length) }
}

interface Side {
  /** For each line a number; the same for equal lines of either side. */
  readonly lines: readonly number[]
  readonly changed: boolean[]
}

const sideOf = (lines: readonly number[]): Side => ({ lines, changed: lines.map(() => false) })

function numbered(lists: readonly (readonly string[])[]): number[][] {
  const numbers = new Map<string, number>()
  const numberOf = (line: string): number => {
    const number = numbers.get(line) ?? numbers.size
    numbers.set(line, number)
    return number
  }
  return lists.map((lines) => lines.map(numberOf))
}

type Fate = 'kept' | 'alone' | 'frequent'

/**
 * Marks lines that the other side does not have as changed, and with them lines that it has very often where these
 * stand among such; gives the places of all others, which are worth comparing.
 */
function setAside(side: Side, other: Side): number[] {
  const fates = fatesOf(side.lines, other.lines)
  for (let at = 0; at < fates.length; at++) {
    if (fates[at] === 'frequent') fates[at] = 'kept'
    if (fates[at] === 'alone') at = weighRun(fates, at) - 1
  }
  fates.forEach((fate, at) => (side.changed[at] = fate !== 'kept'))
  return fates.flatMap((fate, at) => (fate === 'kept' ? [at] : []))
}

function fatesOf(lines: readonly number[], others: readonly number[]): Fate[] {
  const counts = new Map<number, number>()
  for (const line of others) counts.set(line, (counts.get(line) ?? 0) + 1)
  const frequent = 5 * powerBelowRoot(Math.floor(lines.length / 64))
  return lines.map((line) => {
    const count = counts.get(line) ?? 0
    return count === 0 ? 'alone' : count > frequent ? 'frequent' : 'kept'
  })
}

/** About the square root: two to the power of half the digits that a number has in base two. */
function powerBelowRoot(number: number): number {
  let root = 1
  for (let rest = number >> 2; rest > 0; rest >>= 2) root *= 2
  return root
}

/** Decides on the frequent lines of a run that begins with a line alone. Gives the place behind the run. */
function weighRun(fates: Fate[], from: number): number {
  let to = from
  while (to < fates.length && fates[to] !== 'kept') to++
  while (fates[to - 1] === 'frequent') fates[--to] = 'kept'
  const run = fates.slice(from, to)
  const frequent = run.filter((fate) => fate === 'frequent').length
  const weighed = frequent * 4 > run.length ? run.map(keptIfFrequent) : thinned(run)
  weighed.forEach((fate, at) => (fates[from + at] = fate))
  return to
}

const keptIfFrequent = (fate: Fate): Fate => (fate === 'frequent' ? 'kept' : fate)

/** Keeps long stretches of frequent lines, and those near the run's ends, until enough lines alone have passed. */
function thinned(run: readonly Fate[]): Fate[] {
  const longest = powerBelowRoot(run.length >> 2) + 1
  const fates = [...run]
  for (let at = 0; at < fates.length; at++) {
    let to = at
    while (fates[to] === 'frequent') to++
    if (to - at >= longest) fates.fill('kept', at, to)
    at = Math.max(at, to - 1)
  }
  return keptAtStart(keptAtStart(fates).reverse()).reverse()
}

function keptAtStart(fates: readonly Fate[]): Fate[] {
  const next = [...fates]
  let alone = 0
  for (let at = 0; at < next.length && alone < 3; at++) {
    if (at >= 8 && next[at] === 'alone') break
    alone = next[at] === 'alone' ? alone + 1 : 0
    next[at] = keptIfFrequent(next[at]!)
  }
  return next
}

/** A rectangle in the table of all pairs of lines; the paths through it are the ways to make one text the other. */
interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** Marks what is changed among the lines that are worth comparing. */
function mark(x: Side, y: Side, keptX: readonly number[], keptY: readonly number[]): void {
  const a = keptX.map((at) => x.lines[at]!)
  const b = keptY.map((at) => y.lines[at]!)
  const find = midpointFinder(a, b)
  const open: Box[] = [{ left: 0, top: 0, right: a.length, bottom: b.length }]
  for (let box = open.pop(); box; box = open.pop()) {
    const { left, top, right, bottom } = trimmed(box, a, b)
    if (left === right) for (let at = top; at < bottom; at++) y.changed[keptY[at]!] = true
    else if (top === bottom) for (let at = left; at < right; at++) x.changed[keptX[at]!] = true
    else {
      const [across, down] = find({ left, top, right, bottom })
      open.push({ left, top, right: across, bottom: down }, { left: across, top: down, right, bottom })
    }
  }
}

/** A box without the equal lines at its two ends. */
function trimmed(box: Box, a: readonly number[], b: readonly number[]): Box {
  let { left, top, right, bottom } = box
  while (left < right && top < bottom && a[left] === b[top]) {
    left++
    top++
  }
  while (left < right && top < bottom && a[right - 1] === b[bottom - 1]) {
    right--
    bottom--
  }
  return { left, top, right, bottom }
}

/**
 * Gives a function that finds a point on a shortest path through a box, where a path from its start and one from its
 * end meet (section 4b of the paper). Diagonals are numbered x - y; of each is kept how far the paths along it got.
 */
function midpointFinder(a: readonly number[], b: readonly number[]): (box: Box) => readonly [number, number] {
  const shift = b.length + 1
  const ahead = new Int32Array(a.length + b.length + 3)
  const back = new Int32Array(a.length + b.length + 3)
  return ({ left, top, right, bottom }) => {
    const [lowest, highest] = [left - bottom, right - top]
    const [first, last] = [left - top, right - bottom]
    const isOdd = ((first - last) & 1) !== 0
    let [aheadLow, aheadHigh, backLow, backHigh] = [first, first, last, last]
    ahead[shift + first] = left
    back[shift + last] = right
    for (let cost = 1; ; cost++) {
      if (aheadLow > lowest) ahead[shift + --aheadLow - 1] = -1
      else aheadLow++
      if (aheadHigh < highest) ahead[shift + ++aheadHigh + 1] = -1
      else aheadHigh--
      for (let d = aheadHigh; d >= aheadLow; d -= 2) {
        const [below, above] = [ahead[shift + d - 1]!, ahead[shift + d + 1]!]
        let at = below < above ? above : below + 1
        while (at < right && at - d < bottom && a[at] === b[at - d]) at++
        ahead[shift + d] = at
        if (isOdd && backLow <= d && d <= backHigh && back[shift + d]! <= at) return [at, at - d]
      }
      if (backLow > lowest) back[shift + --backLow - 1] = right + 1
      else backLow++
      if (backHigh < highest) back[shift + ++backHigh + 1] = right + 1
      else backHigh--
      for (let d = backHigh; d >= backLow; d -= 2) {
        const [below, above] = [back[shift + d - 1]!, back[shift + d + 1]!]
        let at = below < above ? below : above - 1
        while (left < at && top < at - d && a[at - 1] === b[at - d - 1]) at--
        back[shift + d] = at
        if (!isOdd && aheadLow <= d && d <= aheadHigh && at <= ahead[shift + d]!) return [at, at - d]
      }
      if (cost < COST) continue
      const reached = furthest(ahead, shift, aheadLow, aheadHigh, right, bottom, 1)
      const retreated = furthest(back, shift, backLow, backHigh, left, top, -1)
      const isAhead = right + bottom - retreated[0] - retreated[1] < reached[0] + reached[1] - left - top
      return isAhead ? reached : retreated
    }
  }
}

/** The point where the paths from one end got furthest, held within the box. */
function furthest(
  points: Int32Array,
  shift: number,
  low: number,
  high: number,
  endX: number,
  endY: number,
  way: 1 | -1,
): readonly [number, number] {
  let best: readonly [number, number] | undefined
  for (let d = high; d >= low; d -= 2) {
    const inX = way * Math.min(way * points[shift + d]!, way * endX)
    const at = way * (inX - d) > way * endY ? endY + d : inX
    if (!best || way * (at + at - d) > way * (best[0] + best[1])) best = [at, at - d]
  }
  return best!
}

/**
 * Moves runs of changed lines that could as well lie elsewhere: together where they can meet, else down as far as they
 * go, but beside a change on the other side where there is one on the way.
 */
function settle(side: Side, other: Side): void {
  const { lines, changed } = side
  // Lines that are not changed stand beside each other one by one; `beside` is the place in the other side.
  let beside = 0
  const skipChanged = (): void => {
    while (other.changed[beside]) beside++
  }
  for (let to = 0; ;) {
    while (to < lines.length && !changed[to]) {
      skipChanged()
      beside++
      to++
    }
    if (to === lines.length) return
    let from = to
    while (changed[to]) to++
    skipChanged()
    const down = (): void => {
      changed[from++] = false
      changed[to++] = true
      while (changed[to]) to++
      beside++
    }
    const up = (): void => {
      changed[--from] = true
      changed[--to] = false
      while (changed[from - 1]) from--
      do beside--
      while (other.changed[beside])
    }
    let meeting: number
    for (let length = -1; ;) {
      length = to - from
      while (from > 0 && lines[from - 1] === lines[to - 1]) up()
      meeting = other.changed[beside - 1] ? to : lines.length
      while (to < lines.length && lines[from] === lines[to]) {
        down()
        if (other.changed[beside]) meeting = -1
        while (other.changed[beside]) {
          beside++
          meeting = to
        }
      }
      if (length === to - from) break
    }
    while (meeting < to) up()
  }
}
