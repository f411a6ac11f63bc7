/** Diagrams to begin with: each shows how its kind is written, and is there to be written over. */

export interface SketchPattern {
  readonly id: 'network' | 'decision' | 'mind map' | 'sequence'
  /** As it stands in a menu. */
  readonly word: string
  /** What it is for, in a few words. */
  readonly hint: string
  /** The text between the fences, without a line end behind it. */
  readonly text: string
}

const network = `flowchart TB
  router["Router<br/>192.0.2.1"] --- switch["Rack switch<br/>192.0.2.2"]
  subgraph rack [Rack]
    switch --- store[("Storage<br/>192.0.2.10")]
    switch --- host["Host<br/>192.0.2.11"]
  end
  subgraph dome [Dome]
    access["Access point<br/>192.0.2.20"] -. wireless .- logger(["Weather logger<br/>192.0.2.30"])
  end
  switch ---|fibre| access`

const decision = `flowchart TD
  start([No readings arrive]) --> power{Has the logger power?}
  power -- no --> supply[Check the supply and its fuse]
  power -- yes --> reach{Does it answer?}
  reach -- no --> link[Check cable and switch port]
  reach -- yes --> service{Does the service run?}
  service -- no --> restart[Start it and read its log]
  service -- yes --> ask[Ask for help, with the log]`

const mindMap = `mindmap
  root((Replace the<br/>weather logger))
    Before
      Note the settings
      Copy the readings
    Power
      Off at the board
      Label both leads
    Network
      Keep the address
      Port 7 of the switch
    Afterwards
      Compare readings
      Write what changed`

const sequence = `sequenceDiagram
  participant logger as Weather logger
  participant store as Storage
  participant person as Observer
  loop every minute
    logger->>store: New reading
    store-->>logger: Stored
  end
  person->>store: Readings of tonight?
  store-->>person: Table of readings
  Note over logger,store: Without a network the logger keeps a day of readings`

export const sketchPatterns: readonly SketchPattern[] = [
  { id: 'network', word: 'Network sketch', hint: 'what is joined to what', text: network },
  { id: 'decision', word: 'Decision tree', hint: 'questions that lead to what to do', text: decision },
  { id: 'mind map', word: 'Mind map', hint: 'what belongs to a matter', text: mindMap },
  { id: 'sequence', word: 'Sequence', hint: 'who tells whom what, in order', text: sequence },
]

/** A diagram's text as a block of Markdown, its fence longer than any in the text (CommonMark 0.31.2 §4.5). */
export function toFence(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/^[ \t]*(`{3,})/gmu)].map(([, ticks]) => ticks!.length))
  const fence = '`'.repeat(longest + 1)
  return `${fence}mermaid\n${text}\n${fence}`
}
