/** Mains, batteries, stored energy, generators. The signal words are for people; each text defers to codes and licensed practice. */
import type { ReadyCaution } from './ready-texts.ts'

const electricians = 'Local electrical codes and licensed electricians.'

export const electricTexts: readonly ReadyCaution[] = [
  {
    id: 'mains-inside',
    title: 'Opening a mains-powered machine',
    caution: {
      signal: 'warning',
      hazard:
        'Mains voltage stands inside the case while the plug is in, also when the machine is switched off.',
      consequence: 'A shock can kill.',
      avoidance:
        'Shut down, pull every power cord (there may be two), and wait as long as the maker says before you open the case. Local codes come first; fixed wiring is for licensed electricians.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'A shock from mains can kill, but does not in every case: warning, not danger.',
    defersTo: electricians,
    words: ['mains', 'power', 'electric', 'case', 'plug', 'voltage'],
  },
  {
    id: 'live-wiring',
    title: 'Live conductors laid bare',
    caution: {
      signal: 'danger',
      hazard:
        'Behind this cover are bare conductors that are live: a distribution board, a rail, or a socket that is opened.',
      consequence: 'Whoever touches them is electrocuted or burned by an arc.',
      avoidance:
        'Stop here. Do not open it. This is work for a licensed electrician, who isolates, locks off and tests for absence of voltage by the local code.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'will' },
    why: 'Touching bare mains conductors will kill or badly hurt: danger is kept for this.',
    defersTo: electricians,
    words: ['mains', 'distribution', 'board', 'socket', 'busbar', 'pdu', 'arc'],
  },
  {
    id: 'power-supply-capacitors',
    title: 'Capacitors in a power supply',
    caution: {
      signal: 'warning',
      hazard: 'Capacitors in a power supply hold a high voltage after the plug is pulled, some for hours.',
      consequence: 'A shock can kill.',
      avoidance:
        'Do not open a power supply: replace it as a whole. Repair is for those who are trained for it, by the maker’s instructions and local codes.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'The charge can kill and gives no sign: warning.',
    defersTo: 'The maker’s service instructions, local codes, trained technicians.',
    words: ['psu', 'capacitor', 'supply', 'charge', 'stored', 'energy'],
  },
  {
    id: 'ups-output-live',
    title: 'A UPS feeds on without mains',
    caution: {
      signal: 'warning',
      hazard: 'The outlets of a UPS stay live when its own plug is pulled.',
      consequence: 'A shock can kill, on equipment that seems to be cut off.',
      avoidance:
        'Switch the UPS off by its own procedure, disconnect what you work on from it, and prove that it is dead. A UPS that is wired in is for licensed electricians; local codes come first.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Mains voltage where none is expected: warning.',
    defersTo: electricians,
    words: ['ups', 'battery', 'outlet', 'backfeed', 'power'],
  },
  {
    id: 'ups-batteries',
    title: 'Changing UPS batteries',
    caution: {
      signal: 'warning',
      hazard: 'The batteries of a UPS deliver very large currents, are heavy, and can hold acid.',
      consequence: 'A short circuit can burn, blind or start a fire; acid burns skin and eyes.',
      avoidance:
        'Take off rings and watches, use insulated tools, cover the terminals, wear eye protection, and follow the maker’s instructions. Hand old batteries to a collecting point. Where strings of batteries exceed safe voltage, local codes ask for licensed practice.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Burns and arcs can be grave: warning.',
    defersTo: 'The maker’s instructions, local codes, licensed practice.',
    words: ['ups', 'battery', 'batteries', 'acid', 'lead', 'terminals', 'short'],
  },
  {
    id: 'lithium-battery',
    title: 'Swollen or damaged lithium battery',
    caution: {
      signal: 'warning',
      hazard: 'A swollen, pierced or hot lithium battery can catch fire without warning.',
      consequence: 'Fire, and smoke that poisons.',
      avoidance:
        'Do not press, bend, charge or open it. Keep it away from what burns, leave the room if it smokes, and call the fire service. Ask the local collecting point how to bring it.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'A fire indoors can kill: warning.',
    defersTo: 'The fire service, local rules for waste, the maker’s instructions.',
    words: ['lithium', 'battery', 'swollen', 'laptop', 'fire', 'cache'],
  },
  {
    id: 'generator',
    title: 'Running a generator',
    caution: {
      signal: 'danger',
      hazard: 'The exhaust of a generator holds carbon monoxide, which nobody can see or smell.',
      consequence: 'In a room, a garage or near an open window it kills within minutes.',
      avoidance:
        'Run it outdoors only, far from doors, windows and air intakes, with a carbon monoxide alarm inside. Let it cool before refuelling. Never plug it into the wiring of a building: a transfer switch is for licensed electricians, by local codes.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'will' },
    why: 'Running indoors will kill: danger.',
    defersTo: 'Local codes, the maker’s instructions, licensed electricians, the fire service.',
    words: ['generator', 'exhaust', 'carbon', 'monoxide', 'fuel', 'outage', 'backfeed'],
  },
  {
    id: 'static',
    title: 'Static electricity',
    caution: {
      signal: 'notice',
      hazard: 'Boards, memory and disks are damaged by charges too small to feel.',
      consequence: 'The part fails, at once or weeks later.',
      avoidance:
        'With the power cords pulled, wear an earthed wrist strap with its built-in resistor, touch bare metal of the case first, and hold parts by their edges. Leave them in their bags until they are fitted.',
    },
    harm: { worst: 'loss of data, equipment or service', ifNotAvoided: 'could' },
    why: 'Only equipment is at stake: notice. Never wear a strap while working on live parts.',
    defersTo: null,
    words: ['static', 'esd', 'discharge', 'memory', 'board', 'wrist'],
  },
]
