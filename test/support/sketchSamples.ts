/** One text for each further kind of diagram that is drawn, in words of a small observatory. */

export interface SketchSample {
  readonly word: string
  readonly text: string
}

export const sketchSamples: readonly SketchSample[] = [
  {
    word: 'Coloured flow chart',
    text: `flowchart LR
 A[One]:::x --> B[Two] ==> C((Three))
 classDef x fill:#ffe0f0,stroke:#f06,color:#000
 style B fill:#123`,
  },
  {
    word: 'States',
    text: `stateDiagram-v2
 [*] --> Idle
 Idle --> Measuring: every minute
 Measuring --> Idle
 state Measuring {
  Warm --> Read
 }`,
  },
  {
    word: 'Classes',
    text: `classDiagram
 Sensor <|-- Thermometer
 Sensor : +int id
 Sensor : +read() Reading
 class Thermometer{
  +float offset
 }`,
  },
  {
    word: 'Relations',
    text: `erDiagram
 HOST ||--o{ DISK : has
 HOST {
  string name
  string address
 }`,
  },
  {
    word: 'Time plan',
    text: `gantt
 title Move the rack
 dateFormat YYYY-MM-DD
 section Before
 Order cable :done, a1, 2026-01-01, 3d
 Label :active, after a1, 2d
 section Move
 Carry :crit, 2026-01-07, 1d`,
  },
  {
    word: 'Shares',
    text: `pie title Use of the disk
 "Images": 60
 "Logs": 25
 "Free": 15`,
  },
  {
    word: 'Timeline',
    text: `timeline
 title Of the mast
 2024 : Raised : Painted
 2025 : Bent in the storm`,
  },
  {
    word: 'Branches',
    text: `gitGraph
 commit
 branch fix
 commit
 checkout main
 merge fix`,
  },
  {
    word: 'Quadrants',
    text: `quadrantChart
 title What first
 x-axis Easy --> Hard
 y-axis Small --> Large
 Roof: [0.3,0.8]
 Mast: [0.7,0.6]`,
  },
  {
    word: 'Journey',
    text: `journey
 title A night
 section Open
  Roof: 3: Observer
  Focus: 4: Observer`,
  },
  {
    word: 'Columns',
    text: `kanban
 a[To do]
  b[Order cable]
 c[Done]
  d[Label]`,
  },
  {
    word: 'Packet',
    text: `packet-beta
 0-15: "Source port"
 16-31: "Destination port"`,
  },
  {
    word: 'Chart',
    text: `xychart-beta
 title "Wind"
 x-axis [Mon, Tue, Wed]
 y-axis "m/s" 0 --> 10
 bar [3,4,8]
 line [2,5,6]`,
  },
  {
    word: 'Requirements',
    text: `requirementDiagram
 requirement dry {
 id: 1
 text: no water comes in
 risk: high
 verifymethod: test
 }
 element roof {
 type: part
 }
 roof - satisfies -> dry`,
  },
]
