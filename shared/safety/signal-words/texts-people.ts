/** Weight, heights, heat, light, and being alone. */
import type { ReadyCaution } from './ready-texts.ts'

const safety = 'Local rules for safety at work, and trained people.'

export const peopleTexts: readonly ReadyCaution[] = [
  {
    id: 'heavy-gear',
    title: 'Lifting heavy equipment',
    caution: {
      signal: 'warning',
      hazard: 'This equipment is too heavy or too long for one person.',
      consequence: 'It can fall and crush a foot or a hand, or injure a back for good.',
      avoidance:
        'Read the weight on the label. Take out disks and power supplies first. Lift with two people or a lift, with the legs, and clear the way beforehand. Local limits for lifting come first.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Crushing and injuries of the spine are serious: warning. For light gear take caution.',
    defersTo: safety,
    words: ['lift', 'heavy', 'weight', 'server', 'ups', 'back'],
  },
  {
    id: 'rack-tipping',
    title: 'A rack can tip over',
    caution: {
      signal: 'warning',
      hazard: 'A rack tips when equipment is pulled out on its rails, or when it is heavy at the top.',
      consequence: 'It can crush whoever stands before it.',
      avoidance:
        'Bolt the rack down or put out its feet. Load from the bottom, pull out one unit at a time, and never climb on it. The maker’s instructions and local codes come first.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'A loaded rack can kill: warning.',
    defersTo: 'The maker’s instructions, local codes for building and work.',
    words: ['rack', 'rails', 'tip', 'cabinet', 'slide'],
  },
  {
    id: 'ladder-and-roof',
    title: 'Ladders, roofs and masts',
    caution: {
      signal: 'warning',
      hazard: 'The work is done at a height, on a ladder, a roof or a mast.',
      consequence: 'A fall can kill.',
      avoidance:
        'Have someone hold the ladder, keep three points of contact, tie tools on, and stop in wind, wet or lightning. Keep well away from overhead lines. Work on roofs and masts is for people trained and equipped for it, by local codes.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'A fall can kill, though not every fall does: warning.',
    defersTo: 'Local codes for work at height, trained and equipped people.',
    words: ['ladder', 'roof', 'mast', 'antenna', 'height', 'fall', 'sensor', 'lightning'],
  },
  {
    id: 'cable-pulling',
    title: 'Pulling cables through walls and ceilings',
    caution: {
      signal: 'warning',
      hazard: 'Walls, floors and ceilings hide mains wiring, pipes and, in old buildings, asbestos.',
      consequence: 'A drill or a fish wire can touch a live conductor; dust can harm the lungs for good.',
      avoidance:
        'Find out what runs there, and use a detector. Stop at dust or boards that you do not know. Keep data cables apart from mains as local codes ask; holes through fire barriers are for licensed people to close.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'A shock or asbestos can kill: warning.',
    defersTo: 'Local building, fire and electrical codes, licensed trades.',
    words: ['cable', 'pull', 'drill', 'wall', 'ceiling', 'conduit', 'asbestos'],
  },
  {
    id: 'hot-surfaces',
    title: 'Hot surfaces',
    caution: {
      signal: 'caution',
      hazard: 'Heat sinks, disks and transceivers stay hot after the machine is switched off.',
      consequence: 'They can burn fingers.',
      avoidance: 'Let them cool for some minutes, and hold parts by their handles or edges.',
    },
    harm: { worst: 'minor or moderate injury', ifNotAvoided: 'could' },
    why: 'Small burns at worst: caution.',
    defersTo: safety,
    words: ['hot', 'heat', 'sink', 'burn', 'transceiver', 'cpu'],
  },
  {
    id: 'fans',
    title: 'Fans that turn',
    caution: {
      signal: 'caution',
      hazard:
        'Fans turn on for a while after the power is off, and can start without warning while it is on.',
      consequence: 'They can cut fingers, and catch hair, ribbons and sleeves.',
      avoidance: 'Wait until they stand still. Tie back hair, take off what dangles, and keep fingers out.',
    },
    harm: { worst: 'minor or moderate injury', ifNotAvoided: 'could' },
    why: 'Cuts that heal: caution. Large blowers ask for warning.',
    defersTo: safety,
    words: ['fan', 'blower', 'finger', 'hair'],
  },
  {
    id: 'laser-optics',
    title: 'Light from fibres and transceivers',
    caution: {
      signal: 'warning',
      hazard:
        'Invisible laser light can come from an open fibre or port, also with the other end out of sight.',
      consequence: 'It can damage an eye for good.',
      avoidance:
        'Never look into a fibre or a port, and never with a magnifier. Cap what is open, switch off the sender first, and use a power meter or a camera. The class on the label (IEC 60825-1) says how strong it is; strong ones are for trained people.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Lasting harm to an eye is a serious injury: warning.',
    defersTo: 'The laser class on the label, local rules for lasers, trained people.',
    words: ['laser', 'fibre', 'fiber', 'optic', 'sfp', 'transceiver', 'eye'],
  },
  {
    id: 'sharp-edges',
    title: 'Sharp edges',
    caution: {
      signal: 'caution',
      hazard: 'Sheet metal, rack rails and cut cable ties have sharp edges.',
      consequence: 'They can cut hands.',
      avoidance: 'Wear gloves that resist cuts where you need no fine touch, and cut cable ties flush.',
    },
    harm: { worst: 'minor or moderate injury', ifNotAvoided: 'could' },
    why: 'Cuts that heal: caution.',
    defersTo: safety,
    words: ['sharp', 'cut', 'edge', 'rails', 'glove'],
  },
  {
    id: 'alone-at-night',
    title: 'Working alone or tired',
    caution: {
      signal: 'warning',
      hazard: 'You work alone, at night, or after a long day.',
      consequence: 'After a shock or a fall nobody comes to help, and tired people make grave mistakes.',
      avoidance:
        'Do no work with mains, heights or heavy gear alone. Tell someone where you are and when you will call; have them come if you do not. Put off what can wait until you have slept. Local rules for working alone come first.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Help that does not come can cost a life: warning.',
    defersTo: safety,
    words: ['alone', 'night', 'tired', 'lone', 'shift'],
  },
  {
    id: 'noise',
    title: 'Noise of a machine room',
    caution: {
      signal: 'caution',
      hazard: 'Fans in a machine room can be so loud that one must shout.',
      consequence: 'Hours of it harm the hearing, and alarms and calls go unheard.',
      avoidance:
        'Wear ear protection, take breaks outside, and agree on signs with the person beside you. Local limits for noise come first.',
    },
    harm: { worst: 'minor or moderate injury', ifNotAvoided: 'could' },
    why: 'For a short stay the harm is moderate: caution. Daily work there is for the rules of work safety.',
    defersTo: safety,
    words: ['noise', 'loud', 'hearing', 'fan'],
  },
  {
    id: 'gas-extinguishing',
    title: 'Gas that puts out fires',
    caution: {
      signal: 'warning',
      hazard: 'This room has a fire extinguishing system that floods it with gas.',
      consequence: 'The gas can suffocate whoever stays inside.',
      avoidance:
        'Know the alarm and the way out before you start. Leave at once when it sounds, and do not go back in. Have it blocked for dusty or hot work by those who are responsible for it, by local fire codes.',
    },
    harm: { worst: 'death or serious injury', ifNotAvoided: 'could' },
    why: 'Carbon dioxide in such amounts can kill: warning.',
    defersTo: 'Local fire codes, the operator of the system.',
    words: ['fire', 'gas', 'extinguish', 'alarm', 'suffocate', 'dust'],
  },
]
