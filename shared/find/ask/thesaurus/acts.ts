import { readWords } from './read-words.ts'

/**
 * What people call doings and states, and the other words that texts have for them: of each line the word that is asked with,
 * then those that count for it. Common practice, no source.
 */
export const acts = readWords(`
  abort: cancel terminate interrupt
  accept: allow permit receive
  access: reach login connect permission
  acquire: obtain get
  activate: enable start
  add: append create insert attach
  adjust: tune change set alter
  advertise: announce publish
  again: retry repeat twice
  agree: consensus match consistent accept
  alert: notify alarm warn warning page
  alive: up running healthy
  allocate: assign reserve provision
  allow: permit accept enable grant
  alter: change modify edit
  always: constantly permanent
  analyse: analyze examine inspect analysis
  analyze: analyse examine inspect analysis
  answer: reply respond response resolve
  appear: show visible detected
  append: add extend concatenate
  approve: accept allow authorise authorize
  archive: backup store tar compress
  ask: query request prompt question
  assemble: build mount construct
  assign: allocate set give
  attach: connect plug mount add
  attack: intrusion brute-force
  attempt: try retry
  authenticate: login authentication credentials verify
  authorise: authorize allow permit
  authorize: authorise allow permit
  automatic: automatically auto unattended
  automatically: automatic auto unattended
  available: free present
  avoid: prevent bypass
  backup: snapshot copy archive dump
  bad: invalid faulty wrong defective
  balance: distribute spread
  ban: block deny blacklist
  beep: alarm sound
  began: started
  begin: start initiate
  benchmark: measure performance throughput test
  bind: listen attach
  blank: empty
  blink: flash led
  block: deny filter drop prevent
  boot: start startup bootloader
  bounce: reject return undeliverable
  break: fail broken damage interrupt
  broadcast: announce multicast
  broke: failed broken damaged
  broken: damaged corrupt malformed faulty bad
  build: compile make create assemble construct
  built: compiled made created assembled
  bulge: swollen swell
  burn: flash write
  busy: in-use occupied ebusy loaded
  bypass: skip avoid circumvent
  calculate: compute estimate derive
  cancel: abort stop revoke
  cap: limit maximum
  cause: reason trigger lead
  certify: sign certificate
  change: modify alter edit update replace
  check: verify test inspect examine validate confirm
  choose: select pick
  chose: selected chosen picked
  clash: conflict collide duplicate
  clean: purge clear prune tidy remove
  cleanly: gracefully safely
  clear: empty reset flush clean erase
  clobber: overwrite destroy truncate
  clone: copy duplicate image
  close: shut closed terminate end
  closed: shut refused blocked filtered
  collide: conflict clash collision
  combine: merge join aggregate
  compare: diff match differ comparison verify
  compatible: supported
  compile: build make
  complain: warn error report reject fail
  complete: finish done full
  compress: gzip zip zstd pack
  compute: calculate derive
  configure: set setup configuration adjust
  confirm: verify check acknowledge confirmation
  conflict: clash collide mismatch
  connect: attach link join reach connection
  constantly: continuously always
  consume: use usage occupy
  contain: include hold
  continue: resume proceed
  convert: transform translate migrate change
  cool: fan cooling cold
  copy: duplicate clone replicate transfer cp
  correct: fix right proper amend
  corrupt: damaged corruption broken invalid
  count: number total tally
  crash: panic segfault abort fault oops
  create: make add new generate build
  cut: truncate sever disconnect trim
  daily: nightly day
  damage: corrupt broken corruption degraded
  damp: wet moisture humidity
  dangerous: unsafe hazard risk destructive
  deactivate: disable stop
  dead: failed down inactive unresponsive
  debug: diagnose troubleshoot trace verbose
  decide: choose decision determine
  decline: refuse reject
  decommission: retire remove dispose
  decrease: reduce lower fall
  decrypt: unlock decryption
  default: standard preset
  defective: faulty broken
  defer: postpone delay queue
  define: set declare specify configure
  degrade: degraded worsen reduced
  delay: wait latency lag late
  delete: remove erase rm unlink purge
  deliver: send delivery
  deny: refuse reject forbid denied
  depend: require need dependency
  deploy: install rollout release
  deprecated: obsolete removed replaced
  describe: explain document list detail
  destroy: delete erase wipe
  detach: disconnect remove unmount
  detect: discover find notice recognise recognize probe
  determine: decide find identify
  deviate: drift differ
  diagnose: investigate debug troubleshoot diagnosis diagnostic
  die: fail crash exit terminate dead
  died: failed crashed exited killed
  diff: compare difference differ
  differ: mismatch different diff vary
  different: differ mismatch distinct other unequal
  disable: deactivate stop off mask
  disagree: conflict mismatch differ inconsistent
  disallow: deny forbid prohibit
  disappear: vanish missing lost gone
  discard: drop trim delete
  disconnect: detach unplug drop disconnected
  discover: find detect scan probe
  display: show print list view
  dispose: discard recycle decommission
  distrust: untrusted reject
  divide: split partition
  document: record describe documentation write
  double: duplicate twice
  down: offline unreachable failed
  downgrade: rollback revert older
  download: fetch get pull
  drift: skew offset deviate
  drop: discard lose delete reject
  dump: export backup print
  duplicate: copy clone double
  early: before premature ahead
  edit: change modify
  eject: unmount remove detach
  elect: vote choose leader
  empty: blank zero none null
  enable: activate allow start
  encrypt: cipher encryption luks
  end: finish terminate stop complete
  enlarge: grow expand extend
  enough: sufficient adequate
  enrol: enroll register join
  enroll: enrol register join
  equal: same identical match
  erase: wipe delete clear shred
  estimate: guess calculate approximate
  examine: inspect check analyse analyze
  exceed: over overflow surpass
  exchange: swap replace trade
  exclude: omit ignore skip
  executable: binary exec
  execute: run launch
  exhaust: full deplete empty
  exit: quit terminate return
  expand: grow extend resize
  expire: expiry expiration lapse invalid renew
  explain: describe document reason
  export: dump share output
  expose: publish reveal open
  extend: grow expand renew lengthen
  external: public outside wan
  extract: unpack decompress
  fail: failure error failed broken unsuccessful
  fall: drop decrease
  fast: quick rapid speed
  fasten: screw attach secure
  faulty: defective broken failed bad
  favor: favour prefer
  favour: favor prefer
  fell: dropped fallen decreased
  fetch: get download retrieve pull
  fill: full exhaust occupy
  filter: block drop firewall
  find: locate search discover lookup detect
  finish: complete end done exit
  fix: repair correct solve resolve workaround patch
  flaky: intermittent unstable unreliable
  flap: bounce unstable intermittent
  flash: burn write firmware
  flicker: flash blink
  flood: overload storm saturate
  follow: track tail trace
  forbid: prohibit deny disallow forbidden
  forbidden: denied prohibited unauthorised unauthorized
  force: override forced
  forcibly: force forced
  forget: lose purge forgotten
  forgot: forgotten lost reset
  forgotten: forgot lost
  format: mkfs initialise initialize
  former: previous old
  forward: relay redirect route pass
  found: located discovered detected
  free: available unused
  freeze: hang lockup stall hung
  fresh: new clean
  froze: hung frozen stalled
  frozen: hung stuck hang locked
  full: space enospc exhausted capacity
  generate: create make produce
  get: fetch obtain receive retrieve acquire
  gone: missing lost removed deleted disappeared
  got: received obtained acquired
  gracefully: cleanly graceful
  gradually: slowly gradual
  grant: permit allow give
  grep: search find match
  grew: grown increased expanded
  grow: expand extend resize increase
  hack: compromise intrusion breach
  hacked: compromised breached
  halt: stop shutdown poweroff
  hang: freeze hung stall block stuck
  happen: occur event
  harden: secure protect
  harmless: safe ignore benign
  hash: checksum digest
  healthy: ok good passed
  held: kept locked retained
  hid: hidden masked
  hidden: invisible masked dotfile
  hide: mask conceal invisible
  hold: keep retain lock contain
  host: serve server run
  hot: temperature overheat thermal warm
  hung: stuck frozen blocked stalled hang
  identical: same equal match compare differ
  identify: recognise recognize determine detect name
  idle: inactive unused
  ignore: skip discard disregard exclude
  illegal: invalid forbidden
  immediately: now instantly immediate
  import: load restore ingest
  improve: increase optimise optimize better
  include: contain add
  incompatible: unsupported mismatch
  incorrect: wrong invalid bad
  increase: raise grow rise
  inform: notify report tell alert
  initialise: initialize start format setup
  initialize: initialise start format setup
  insecure: unsafe weak vulnerable
  insert: add put plug
  inspect: examine check view look
  install: setup deploy add installation
  instantly: immediately immediate
  insufficient: low lack
  intermittent: sporadic sometimes flapping
  internal: private inside lan
  interpret: parse read
  interrupt: abort break irq stop
  invalid: bad malformed wrong illegal
  invalidate: revoke expire invalid
  investigate: diagnose debug examine trace troubleshoot
  invisible: hidden undetected
  isolate: separate quarantine segregate
  jam: stuck block
  join: connect merge enrol enroll
  keep: retain store preserve hold save
  kept: retained stored preserved held
  kill: terminate stop signal sigkill
  label: mark tag name
  labeled: labelled marked tagged
  labelled: labeled marked tagged
  lapse: expire
  late: delayed overdue behind lag
  latest: newest recent current
  launch: start run execute
  leak: disclose exposure escape
  let: allow permit
  lift: raise carry hoist
  limit: restrict quota throttle cap
  link: connect symlink connection
  list: show enumerate print display
  listen: bind port socket listening
  load: read import start insert
  local: localhost lan
  locate: find search position
  lock: block hold
  locked: busy held
  log: record journal logging write
  login: logon authenticate session sign-in
  logout: logoff exit sign-out
  look: check inspect examine view search
  lookup: resolve query search
  loop: repeat cycle recursion
  loose: seated unseated
  lose: lost loss missing drop
  lost: missing lose loss gone
  loud: noisy noise
  lower: reduce decrease
  made: created built generated
  make: create build generate produce
  malformed: invalid syntax parse bad
  manual: manually hand
  manually: manual hand
  mark: label tag flag
  mask: hide disable
  match: equal same identical correspond
  measure: benchmark meter time monitor sample gauge
  mend: repair fix
  merge: join combine
  migrate: move transfer convert migration
  mirror: replicate copy raid sync
  mismatch: differ different inconsistent conflict
  miss: missing lack skip absent
  missing: absent lost lack unavailable
  modify: change alter edit update
  monitor: watch observe track poll monitoring
  mount: attach automount fstab
  move: migrate transfer relocate rename mv
  new: fresh recent latest create
  nightly: daily cron night
  noisy: loud noise verbose
  note: record write document
  notice: detect observe see spot
  notify: alert inform mail warn notification
  observe: watch monitor see notice
  obsolete: deprecated outdated old
  obtain: get acquire fetch
  occasionally: intermittent sporadic
  occupy: use consume fill
  occur: happen event
  offline: down disconnected unavailable
  often: frequent frequently
  old: stale outdated legacy previous obsolete
  omit: skip exclude
  online: up connected
  open: unlock access start unclosed
  operate: run work function
  optimise: optimize tune improve
  optimize: optimise tune improve
  outdated: old obsolete stale
  overdue: late expired due
  overflow: exceed full
  overheat: temperature thermal hot throttle
  overload: saturate overloaded exceed
  override: supersede overrule precedence replace
  overwrite: clobber replace overwritten
  overwrote: overwritten clobbered replaced
  pack: compress archive bundle
  panic: crash oops
  parse: read interpret syntax
  partition: divide fdisk parted slice
  pass: forward relay succeed
  patch: fix update
  pause: suspend stop hold
  periodic: regular recurring scheduled
  permanent: persistent persist static
  permanently: persistent permanent
  permit: allow grant permission
  persist: survive remain permanent
  persistent: permanent survive
  pick: choose select
  ping: reach icmp echo
  plan: schedule
  plug: connect insert attach
  postpone: defer delay
  prefer: priority favour favor preference
  preserve: keep retain save
  prevent: avoid block stop inhibit
  previous: last former old earlier
  primary: master main leader
  print: output show display write echo
  private: internal rfc1918
  proceed: continue
  produce: generate create output
  prohibit: forbid deny disallow
  prompt: ask request confirm
  propagate: spread replicate distribute
  proper: correct right
  protect: secure guard safe
  prove: verify confirm demonstrate test
  prune: clean delete expire trim
  public: external internet world-readable
  publish: advertise announce expose release
  pull: fetch download
  purge: remove delete clean expunge
  push: upload send
  query: ask request lookup search
  queue: pending spool backlog
  quick: fast rapid brief
  quickly: fast rapidly soon promptly
  quiet: silent suppress
  quit: exit stop leave
  raise: increase lift
  ran: executed started run
  reach: connect access ping reachable
  reachable: accessible up online respond
  read: load view parse open
  read-only: ro readonly
  readonly: read-only ro
  reboot: restart boot reset
  rebuild: resilver resync reconstruct recreate
  receive: get accept incoming
  recent: latest new last
  recognise: recognize detect identify
  recognize: recognise detect identify
  reconnect: connect retry reattach
  record: log write note register
  recover: restore rescue repair salvage
  recreate: rebuild create regenerate
  recur: repeat periodic again
  redirect: forward rewrite
  reduce: shrink lower decrease
  refuse: reject deny refused decline
  regenerate: recreate rebuild renew
  register: record enrol enroll add
  regularly: periodic scheduled
  reissue: renew regenerate
  reject: refuse deny bounce discard
  relay: forward smarthost proxy
  reliable: stable
  reload: restart refresh reread
  relocate: move migrate
  remember: save persist store
  remote: distant ssh
  remove: delete uninstall purge rm detach
  rename: move mv name
  renew: reissue extend renewal regenerate
  repair: fix recover fsck rebuild
  repeat: recur retry loop again
  replace: swap substitute change replacement exchange
  replicate: copy mirror sync replication
  reply: answer respond response
  request: ask query require demand
  require: need depend mandatory
  rescue: recover salvage repair
  reseat: seat reinsert
  reserve: allocate hold reservation
  reset: clear restart reinitialise reinitialize default
  resilver: rebuild resync
  resize: grow shrink expand extend
  resolve: solve fix lookup settle
  respawn: restart
  respond: reply answer response react
  restart: reboot reload start respawn
  restore: recover revert backup undelete
  restrict: limit deny confine
  resume: continue wake restart
  retain: keep preserve retention
  retire: decommission dispose
  retrieve: fetch get obtain
  retry: repeat again attempt reattempt
  reveal: show expose disclose
  reverse: undo revert invert
  revert: undo rollback restore
  revoke: cancel withdraw invalidate crl
  rise: increase climb
  risky: dangerous unsafe risk
  rollback: revert undo restore downgrade
  rose: increased risen climbed
  rotate: rotation logrotate cycle renew
  route: forward path gateway
  run: execute start launch operate
  safe: secure harmless protected
  safely: safe cleanly
  same: identical equal match duplicate
  saturate: full overload congest
  save: store write keep preserve commit
  say: report print state tell message
  schedule: cron timer plan
  search: find lookup query grep
  secondary: slave replica standby
  secure: protect harden safe
  see: view show display find read
  seek: search find
  select: choose pick
  send: transmit transfer deliver forward
  sent: transmitted delivered forwarded
  separate: split isolate distinct
  serve: provide host server
  set: configure define assign change
  share: export publish serve
  show: display list print report view output
  shrank: shrunk reduced
  shred: wipe erase overwrite
  shrink: reduce resize smaller
  shut: close closed stop
  shutdown: poweroff halt stop
  sign: signature certify signed
  silent: quiet
  silently: quietly
  similar: like same comparable
  skew: drift offset
  skip: ignore omit bypass
  sleep: suspend standby idle wait
  slow: latency sluggish delayed bottleneck performance
  slowly: slow latency
  sluggish: slow latency
  snapshot: backup image checkpoint
  solve: fix resolve solution
  sometimes: intermittent occasionally sporadic
  spare: hot-spare standby replacement
  specify: define set give
  split: divide separate partition
  spot: detect notice find identify
  stable: reliable steady
  stale: old outdated expired
  stall: hang block stuck
  standard: default
  start: launch boot run begin enable
  stop: halt terminate kill shutdown disable end
  store: save keep hold storage
  stuck: hung blocked hang jammed
  substitute: replace swap
  suddenly: abruptly unexpected
  survive: persist remain withstand
  suspend: pause sleep hibernate
  swap: exchange replace change
  swell: bulge swollen
  switch: toggle change failover
  swollen: bulging swell
  sync: synchronise synchronize replicate mirror rsync
  synchronise: sync synchronize
  synchronize: sync synchronise
  tag: label mark
  tell: report notify inform say instruct
  temporarily: transient temporary
  temporary: transient temp ephemeral volatile
  terminate: kill stop end exit
  test: check try verify probe
  throttle: limit slow rate-limit
  tidy: clean prune cleanup
  time: measure duration elapsed
  toggle: switch flip
  trace: track follow debug traceroute
  track: trace follow monitor record
  transfer: copy move send migrate
  transform: convert change
  transient: temporary intermittent
  translate: convert map rewrite
  transmit: send
  trigger: start fire activate cause
  trim: prune discard truncate cut
  troubleshoot: diagnose debug troubleshooting investigate
  truncate: cut shorten trim empty
  trust: verify authority trusted ca
  try: attempt test retry
  tune: adjust optimise optimize tuning
  tweak: tune adjust change
  twice: duplicate double
  umount: unmount detach
  unattended: automatic non-interactive
  unavailable: down offline missing
  undelete: recover restore
  undo: revert rollback restore reverse
  unencrypted: cleartext plain
  unexpected: unexpectedly sudden
  uninstall: remove purge
  unknown: unrecognised unrecognized unresolved
  unlock: decrypt open release
  unlocked: open decrypted
  unmount: umount detach eject
  unpack: extract decompress untar
  unplug: disconnect remove pull
  unreachable: down offline timeout inaccessible route
  unsafe: dangerous insecure risky
  unstable: flaky intermittent
  unsupported: incompatible
  untrusted: self-signed unknown unverified
  unused: idle free orphaned
  unzip: extract decompress
  up: online running active
  update: upgrade change refresh patch
  upgrade: update install migrate
  upload: send push put
  valid: correct legal
  validate: verify check valid
  vanish: disappear missing lost
  verbose: debug detailed
  verify: check validate confirm test prove
  vibrate: vibration shake
  view: show display see read
  visible: shown detected
  wait: delay timeout block pending
  wake: resume wol wakeup
  warn: warning alert notify caution
  watch: monitor observe track follow
  weak: poor insecure low
  wear: endurance worn degrade
  wet: damp moisture water humidity
  wipe: erase shred zero clear delete
  withdraw: revoke remove
  woke: resumed woken
  work: function operate run
  worn: wear aged degraded
  worsen: degrade increase
  writable: writeable rw
  write: save store record output
  written: wrote saved recorded stored
  wrong: incorrect invalid bad mistaken
  wrote: written saved recorded stored
`)
