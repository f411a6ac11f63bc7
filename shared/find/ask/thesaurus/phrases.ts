import { readWords } from './read-words.ts'

/**
 * Phrases and the single words that texts have for them; of those with none nothing is looked for. The first word is a verb
 * as it is named. Common practice, no source.
 */
export const phrases = readWords(`
  a bit:
  a lot:
  a lot of:
  a while ago:
  able to:
  after all:
  all of a sudden: suddenly unexpected abruptly
  all the time:
  and so on:
  any idea:
  any more:
  as usual:
  as well:
  at all:
  at boot: startup boot
  at first:
  at last:
  at least:
  at most:
  at once: immediately now
  at some point:
  at the moment:
  at the same time: simultaneous concurrent parallel
  back out: revert rollback undo
  back up: backup copy snapshot
  be allowed: permit permission authorised authorized
  be in use: busy locked
  blow out: clean
  blow up: fail explode
  break down: fail failure
  break in: intrusion breach
  break into: intrusion breach compromise
  break off: disconnect interrupt
  bring back: restore recover
  bring down: stop shutdown disable
  bring up: start enable activate
  build up: accumulate
  burn out: fail
  by hand: manual manually
  by itself: automatic automatically
  by now:
  by the way:
  call out: alert page
  carry out: perform execute
  catch up: resync sync
  change back: revert restore
  change over: switch migrate failover
  clean up: cleanup prune purge
  clear out: empty purge delete
  close down: shutdown close
  come back: return restart recover
  come loose: loose disconnect
  come off: detach
  come up: boot start online
  come up again: reboot restart
  copy over: copy transfer
  cut down: reduce
  cut off: disconnect truncate
  do by hand: manual manually
  do i have to:
  do i need to:
  do we have:
  drop off: disconnect drop
  drop out: disconnect drop
  every day: daily
  every hour: hourly
  every minute: cron minutely
  every night: nightly daily cron
  every so often: periodic
  fall back: fallback revert
  fall behind: lag delay
  fall off: detach drop
  fall out: drop detach
  fall over: crash fail
  figure out: determine diagnose
  fill up: full exhaust
  find out: determine discover detect
  for ever: permanent indefinitely
  for example:
  for good: permanent permanently
  for no reason:
  for now:
  for some reason:
  for the first time:
  for the moment:
  from time to time: periodic intermittent
  get back: restore recover retrieve
  get bigger: grow increase
  get going: start
  get hold of: obtain reach
  get in: login access
  get into: access login enter
  get locked out: lockout locked
  get out: exit
  get out of: exit leave
  get rid of: remove delete
  get smaller: shrink reduce
  get started: start setup
  get stuck: hang stall
  get through: connect pass
  get to: reach access
  get worse: degrade worsen
  give out: assign fail
  give up: abort timeout fail
  go away: disappear vanish resolve
  go back: revert rollback return
  go bad: fail corrupt
  go down: fail offline outage
  go live: deploy production
  go missing: missing lost disappear
  go off: alarm trigger
  go read-only: read-only remount
  go up: increase rise
  go wrong: fail error failure
  going to:
  hand out: assign lease distribute
  hand over: transfer handover
  hang on: wait
  hang up: hangup disconnect
  happen to:
  have a look:
  have to:
  hold back: pin hold defer
  hold on: wait keep
  hold up: delay block
  how can i:
  how come: why cause reason
  how do i:
  how to:
  in any case:
  in case:
  in fact:
  in general:
  in order to:
  in particular:
  in practice:
  in the end:
  in the first place:
  in the meantime:
  in the middle of:
  in theory:
  is it possible:
  is there a way:
  it looks like:
  it seems:
  keep an eye on: monitor watch
  keep in step: sync synchronise synchronize
  keep on: continue
  keep out: block deny
  keep safe: protect secure
  keep track: track monitor
  keep up: cope
  kick off: start trigger
  kick out: disconnect ban evict
  kind of:
  last time:
  leave alone: ignore
  leave out: omit exclude
  let go: release
  let in: allow permit accept
  let through: allow forward pass
  listen on: bind listen port
  lock out: lockout ban block
  lock up: freeze hang lockup
  log in: login authenticate
  log off: logout logoff
  log on: login logon
  log out: logout exit
  look at: inspect view examine
  look for: search find
  look into: investigate examine
  look up: lookup resolve query search
  lose power: outage blackout
  lose track: lost
  make a copy: copy backup duplicate
  make a difference:
  make bigger: grow extend resize
  make room: free space
  make smaller: shrink reduce resize
  make space: free prune
  make sure: verify check ensure
  mess up: break corrupt
  mix up: confuse conflict
  more or less:
  move over: migrate transfer
  need to:
  no idea:
  no longer: deprecated stopped
  not really:
  not sure:
  now and then: intermittent sporadic
  of course:
  on and off: intermittent flapping
  on its own: automatic automatically
  on the other hand:
  on top of that:
  once a day: daily
  once more:
  one by one: sequential serial
  or something:
  out of date: outdated stale
  out of memory: oom
  out of order: broken
  out of space: full enospc
  out of step: desync drift
  over and over:
  pass along: forward relay
  pass on: forward relay
  phase out: deprecate retire
  pick up: detect receive lift
  pile up: accumulate backlog queue
  plug in: connect insert attach
  point at: resolve refer direct
  point to: resolve refer direct
  power cycle: reboot reset
  power down: shutdown poweroff
  power up: boot start
  pull down: download fetch
  pull out: unplug remove disconnect
  put back: restore replace revert
  put off: postpone defer delay
  put together: assemble build
  read back: verify
  right away: immediately
  roll back: rollback revert undo
  roll out: deploy rollout release
  roll over: rotate rollover
  rule out: exclude eliminate
  run again: rerun restart repeat
  run by hand: manual manually
  run into: encounter meet
  run out: expire end empty exhaust
  run out of: exhaust full insufficient
  run over: exceed overrun
  screw down: fasten tighten
  seem to:
  send back: return bounce
  send on: forward relay
  set back: reset revert
  set off: trigger
  set right: correct fix adjust
  set up: configure install setup
  show up: appear visible
  shut down: shutdown poweroff halt
  shut off: stop disable
  shut out: block lockout
  sign in: login authenticate
  sign out: logout
  slow down: slow throttle latency
  so far:
  so that:
  sort of:
  sort out: fix resolve
  speed up: accelerate optimise optimize
  start again: restart
  start by itself: automatic enable autostart
  start from scratch: reinstall rebuild
  start over: reset reinstall
  start up: boot start startup
  straight away: immediately
  such as:
  supposed to:
  swap out: replace exchange
  swap over: exchange switch
  switch off: shutdown stop disable
  switch on: start enable boot
  switch over: failover change
  take a copy: copy backup snapshot
  take apart: disassemble dismantle
  take away: remove revoke
  take back: revert revoke undo
  take care of: handle manage
  take down: stop shutdown remove
  take off: remove detach
  take out: remove extract
  take over: failover takeover
  take too long: slow timeout
  that is:
  the best way:
  the right way:
  this time:
  throw away: discard delete dispose
  throw out: discard reject dispose
  tidy up: clean cleanup prune
  time out: timeout expire
  to be honest:
  to begin with:
  try again: retry repeat
  turn down: reduce lower refuse
  turn off: disable shutdown stop
  turn on: enable start boot
  turn out:
  turn up: increase appear
  turns out:
  up to date: current latest
  use up: exhaust consume
  used to:
  wake up: resume wake
  want to:
  wear out: worn wear fail
  what happens:
  what happens when:
  what is the:
  what should i do:
  what to do:
  why does it:
  work again: recover restore
  work around: workaround bypass
  work out: calculate determine
  would like to:
  write down: record document note
  write over: overwrite
`)
