import { readWords } from './read-words.ts'

/**
 * What people call the things of a machine room, and the other words that texts have for them: of each line the word that is
 * asked with, then those that count for it. Common practice, no source.
 */
export const things = readWords(`
  2fa: two-factor mfa totp
  4g: lte cellular
  access: permission entry login
  access-point: ap
  account: user login
  acl: permission
  acme: letsencrypt certbot
  adapter: adaptor card interface
  adaptor: adapter card interface
  address: ip mac
  admin: administrator root sysadmin
  administrator: root admin superuser
  aerial: antenna
  aggregation: bond lag
  air-conditioning: aircon hvac cooling
  aircon: air-conditioning cooling hvac
  alarm: alert warning
  alert: alarm warning notification
  alias: cname
  ampere: amp current
  antenna: aerial dish
  ap: access-point
  apache: httpd webserver
  application: app program software
  archive: tarball backup
  arp: neighbour neighbor
  array: raid pool md
  auth: authentication
  authentication: auth login
  authorisation: authorization permission
  authorization: authorisation permission
  backhaul: uplink
  backtrace: traceback trace
  backup: copy dump archive restore
  bad-sector: reallocated badblock pending
  balancer: load-balancer haproxy
  bandwidth: throughput speed
  basement: cellar
  bastion: jumphost
  battery: ups cell cmos
  bay: slot caddy
  bezel: faceplate cover
  bios: uefi firmware setup
  blackout: outage
  blocklist: blacklist denylist
  bmc: ipmi
  board: motherboard mainboard card
  bond: lacp lag aggregation
  boot: startup bootloader
  bootloader: grub loader systemd-boot
  breaker: fuse rcd mcb
  broken: failed faulty defective
  busy: ebusy locked
  buzzer: beep alarm
  ca: authority issuer
  cabinet: rack enclosure
  cable: lead cord wire patch
  caddy: tray sled carrier
  camera: webcam cctv
  capacity: size space
  card: adapter board hba
  cartridge: toner ink
  case: chassis enclosure housing
  cellar: basement
  cert: certificate
  certbot: acme letsencrypt
  certificate: cert x509 tls
  chassis: case enclosure housing
  checksum: hash digest sha256
  chrony: ntp chronyd
  cidr: prefix subnet
  cifs: smb samba
  clock: time rtc ntp
  colleague: coworker teammate
  colo: colocation
  colocation: colo datacentre datacenter
  color: colour
  colour: color
  compression: gzip zstd lz4
  computer: host machine pc workstation
  conf: config configuration
  config: configuration setting conf
  configuration: config setting conf
  connection: link session
  connector: plug jack rj45
  console: terminal serial tty
  contact: person phone email
  container: docker podman lxc
  controller: hba raid adapter
  cooling: fan aircon airflow hvac
  copper: utp cat6 ethernet
  copy: duplicate replica backup
  corrupt: damaged broken invalid
  cost: price eur
  coworker: colleague
  cpu: processor core
  crash: panic segfault core-dump
  credential: password secret token
  cron: crontab schedule timer
  crontab: cron
  cups: printer
  current: ampere amp
  daemon: service
  damp: humidity moisture condensation
  dashboard: grafana panel
  database: db postgresql mysql mariadb sqlite
  datacenter: datacentre colocation
  datacentre: datacenter colocation
  dataset: filesystem zfs
  date: day timestamp
  db: database
  deb: package
  dedup: deduplication
  deduplication: dedup
  default: standard preset
  defective: faulty failed
  degraded: faulted failed
  delay: latency timeout
  denied: eacces permission refused forbidden
  dependency: requirement prerequisite
  dhcp: dhcpd lease
  dhcpd: dhcp
  diagram: drawing map plan
  differential: incremental delta
  dimm: memory ram module
  dir: directory
  directory: folder dir
  disc: disk drive
  disk: drive hdd ssd
  display: monitor screen
  distribution: distro release
  dm-crypt: luks
  dnat: port-forward
  dns: nameserver resolver bind
  docker: container
  docs: documentation
  documentation: manual docs
  domain: zone fqdn
  dot1q: vlan
  down: offline unreachable
  downtime: outage maintenance
  drift: skew offset
  drive: disk ssd hdd volume
  driver: module kmod
  eacces: permission denied
  earth: ground
  ebusy: busy
  ecc: parity edac
  econnrefused: refused
  editor: vim vi nano emacs
  efi: uefi esp
  electricity: power mains
  email: mail smtp
  enclosure: chassis case cabinet jbod shelf
  encryption: cipher luks crypto
  end-of-life: eol unsupported
  enoent: missing not-found
  enomem: out-of-memory memory
  enospc: full space
  entry: record note
  environment: env variable
  eol: end-of-life unsupported
  eperm: permission denied
  error: failure fault
  essid: ssid
  ethernet: lan cable
  etimedout: timeout
  expired: expiry notafter stale
  expiry: expires valid notafter renewal
  export: share nfs
  extension: pdu strip
  fan: blower cooler
  faulty: defective broken failed
  fiber: fibre optic
  fibre: fiber optic
  file: document
  fileserver: nas nfs samba
  filesystem: fs ext4 xfs zfs
  fingerprint: hash thumbprint
  firewall: iptables nftables ufw pf
  firmware: bios microcode flash
  fix: workaround solution repair
  folder: directory dir
  forbidden: 403 denied
  fqdn: hostname domain
  frozen: hung unresponsive
  fs: filesystem
  fsck: check repair
  fstab: mount
  full: enospc space capacity quota
  fuse: breaker
  gateway: router default-route
  gb: gigabyte gib
  gid: group
  gigabit: gbit gbps
  gigabyte: gb gib
  gone: missing absent
  ground: earth
  grub: bootloader
  guest: vm virtual-machine
  harddisk: hdd disk drive
  hardware: equipment device
  hba: controller adapter sas
  hdd: disk drive
  heat: temperature thermal
  host: server machine node
  hostname: name fqdn
  hot-spare: spare hotspare
  hotspare: spare hot-spare
  hotspot: access-point ap
  howto: guide procedure
  httpd: apache webserver
  https: tls ssl
  hub: switch
  humidity: damp moisture
  hung: stuck frozen unresponsive
  hvac: air-conditioning cooling
  hypervisor: kvm proxmox
  icmp: ping
  image: iso template snapshot
  incident: outage fault
  incorrect: wrong invalid
  incremental: differential delta
  initramfs: initrd
  initrd: initramfs
  injector: poe
  interface: nic port adapter
  intermittent: flaky sporadic
  internet: wan uplink upstream
  intruder: attacker hacker
  invalid: wrong bad illegal
  inventory: stock list
  ip: address ipv4 ipv6
  ipmi: bmc
  ipsec: vpn
  iptables: firewall nftables netfilter
  ipv4: ip
  ipv6: ip
  iscsi: target initiator san
  isp: provider
  jack: socket port rj45
  job: task cron process
  journal: log journald
  journald: journal
  jumphost: bastion gateway
  kernel: linux vmlinuz
  key: keypair licence license secret
  keypair: key
  kmod: module driver
  known-hosts: fingerprint
  kvm: console hypervisor
  label: sticker tag
  lacp: lag bond
  lan: network ethernet
  latency: delay rtt lag
  lease: dhcp
  led: light lamp indicator
  length: metre meter
  letsencrypt: acme certbot
  light: led indicator lamp
  limit: quota maximum ulimit threshold
  link: symlink uplink url
  list: inventory table
  load-balancer: balancer haproxy
  localhost: loopback
  location: place site
  locked: busy lock disabled
  lockfile: lock
  log: journal syslog
  login: logon signin account
  logon: login
  loop: stp storm
  lost: missing
  lte: 4g cellular
  luks: encryption dm-crypt
  lv: volume
  lvm: volume
  lxc: container
  mac: hardware-address
  machine: host server computer node
  mail: email smtp postfix
  mailbox: imap inbox
  mainboard: motherboard board
  mains: power utility grid ac
  maintainer: owner
  maintenance: downtime service
  manual: handbook guide man
  mariadb: mysql database
  masquerade: nat
  master: primary leader
  mcb: breaker
  md: raid mdadm
  mdadm: raid md
  memory: ram dimm
  message: notice error
  meter: metre gauge
  mfa: two-factor 2fa
  mirror: raid1 replica
  mismatch: differ wrong
  missing: absent enoent lost not-found
  model: type part-number
  modem: ont router cpe
  module: dimm driver transceiver
  monitor: screen display
  monitoring: nagios prometheus zabbix
  motherboard: mainboard board
  mount: mountpoint fstab
  mountpoint: mount
  mtu: jumbo fragmentation
  mysql: mariadb database
  name: hostname label
  nameserver: dns resolver
  nas: fileserver storage
  nat: masquerade port-forward
  neighbor: neighbour peer arp
  neighbour: neighbor peer arp
  net: network internet
  netmask: subnet mask prefix
  network: lan subnet net
  nfs: share export
  nftables: firewall nft iptables
  nginx: webserver
  nic: interface adapter ethernet
  node: host server machine member
  noise: interference loud
  not-found: enoent missing 404
  note: entry memo
  ntp: chrony ntpd timesyncd
  nvme: ssd drive m2
  off-site: offsite remote
  offline: down unreachable disconnected
  offsite: remote off-site
  old: obsolete stale outdated legacy
  on-call: oncall rota
  oncall: on-call
  online: up reachable
  oob: out-of-band bmc
  oom: out-of-memory enomem
  openssh: ssh
  openvpn: vpn
  operating-system: os
  operator: admin sysadmin
  optic: transceiver sfp fibre fiber
  option: flag switch parameter setting
  os: operating-system linux distribution
  otp: totp one-time
  out-of-band: oob bmc ipmi
  out-of-memory: oom enomem
  outage: blackout downtime failure
  outlet: socket receptacle plug
  owner: maintainer responsible
  package: deb rpm
  panel: faceplate patchpanel
  partition: slice volume
  passphrase: password
  passwd: password
  password: passphrase credential secret passwd
  patch: cable patchlead fix
  patchlead: patch cable
  patchpanel: panel
  path: location directory route
  pattern: regex glob
  pc: computer workstation desktop
  pdu: strip
  permission: right mode eacces privilege
  phone: voip sip telephone
  photo: picture image
  pid: process
  ping: icmp
  place: location site
  plug: connector outlet
  podman: container
  poe: power-over-ethernet injector
  pool: zpool array vdev
  port: interface jack socket
  port-forward: dnat nat
  post-mortem: postmortem
  postfix: smtp mta
  postgres: postgresql database
  postgresql: postgres database
  postmortem: post-mortem
  power: mains supply electricity psu
  power-over-ethernet: poe
  prerequisite: requirement dependency
  price: cost
  printer: cups print
  privilege: permission right
  problem: issue fault error
  procedure: instruction
  process: pid task job
  processor: cpu core
  provider: isp carrier supplier
  proxmox: hypervisor pve
  proxy: haproxy reverse-proxy squid
  psu: power-supply supply
  quota: limit edquot
  rack: cabinet enclosure frame
  radio: wireless antenna
  raid: array mirror mdadm raidz
  raid1: mirror
  raidz: raid parity
  ram: memory dimm
  rcd: gfci breaker
  read-only: readonly ro erofs
  read-write: rw writable
  reallocated: bad-sector
  rebuild: resilver resync recovery
  recovery: restore rescue
  redirect: 301 302
  refused: econnrefused rejected
  regex: regexp pattern
  release: version
  remote: distant ssh
  renewal: expiry reissue
  replacement: spare substitute
  replica: copy slave standby secondary
  repository: repo mirror source
  rescue: recovery single-user emergency
  resilver: rebuild resync
  resolver: dns nameserver
  restore: recovery
  resync: rebuild resilver
  retention: rotation prune keep
  reverse-proxy: proxy nginx
  right: permission privilege
  rj45: connector plug ethernet
  rma: warranty
  ro: read-only
  room: space location
  root: administrator superuser sudo
  rotation: logrotate retention
  route: path gateway
  router: gateway
  rssi: signal
  rtc: hwclock clock
  rtt: latency ping
  rule: policy acl
  samba: smb cifs
  san: iscsi storage
  sas: hba
  sata: ahci
  schedule: cron timer timetable
  screen: monitor display console
  script: program shell
  secret: password credential key
  secureboot: secure-boot
  sensor: probe thermometer
  serial: uart console tty rs-232
  serial-number: sn
  server: host machine node
  service: daemon unit systemd
  setting: option config parameter
  sfp: transceiver optic module gbic
  share: export nfs smb cifs
  shed: hut outbuilding
  signal: rssi dbm strength
  signin: login
  single-mode: singlemode smf
  singlemode: single-mode smf
  size: capacity gb dimension
  skew: drift offset
  slave: replica secondary standby
  slot: bay socket position
  slow: latency congested
  smb: samba cifs share
  smtp: mail postfix
  snapshot: checkpoint
  snmp: mib oid
  space: capacity free enospc
  spanning-tree: stp
  spare: hot-spare standby replacement
  speed: bandwidth throughput rate
  ssd: drive disk nvme flash
  ssh: sshd openssh
  sshd: ssh
  ssid: essid
  ssl: tls certificate
  startup: boot start
  static: fixed permanent
  stick: usb thumbdrive
  sticker: label
  storage: disk volume pool nas san
  stp: spanning-tree rstp
  stuck: hung frozen blocked
  subnet: network prefix cidr netmask
  sudo: root sudoers
  superuser: root administrator
  supplier: vendor provider
  symlink: link symbolic
  sysadmin: administrator operator
  sysctl: tunable parameter
  syslog: log rsyslog
  systemctl: systemd
  systemd: systemctl init
  tag: vlan label
  tar: archive tarball
  tb: terabyte tib
  temperature: thermal celsius
  terminal: console tty shell
  thermometer: sensor temperature
  throughput: bandwidth speed
  thumbdrive: usb stick
  thumbprint: fingerprint
  ticket: issue request
  time: clock date timestamp
  timeout: etimedout timed-out
  timer: cron schedule
  timestamp: date time
  timezone: tz zoneinfo utc
  tls: ssl https
  token: credential secret
  toner: cartridge ink
  totp: otp two-factor
  traffic: throughput bandwidth
  transceiver: sfp optic module
  tray: caddy sled shelf
  trunk: tagged vlan lag
  ttl: lifetime expiry
  tty: terminal console
  tunnel: vpn wireguard
  two-factor: 2fa mfa totp
  tz: timezone
  uefi: efi bios firmware
  ufw: firewall
  uid: user
  umlaut: unicode utf-8 encoding
  unauthorised: unauthorized 401
  unauthorized: unauthorised 401
  unreachable: ehostunreach offline down
  unresponsive: hung frozen
  up: online running
  update: upgrade patch
  upgrade: update
  uplink: upstream wan backhaul
  ups: battery
  upstream: uplink provider backend
  uptime: availability
  url: link uri
  usb: stick
  user: account uid login
  username: login user
  utilisation: utilization usage load
  vdev: pool mirror raidz
  vendor: supplier manufacturer
  version: release revision
  vhost: virtualhost
  vi: vim editor
  vim: vi editor
  virtual-machine: vm guest
  virtualhost: vhost
  virtualisation: virtualization hypervisor
  virtualization: virtualisation hypervisor
  vlan: dot1q tag trunk
  vm: virtual-machine guest
  volume: partition disk filesystem lv
  volunteer: helper member
  vpn: tunnel wireguard openvpn ipsec
  vulnerability: cve exploit
  warranty: guarantee rma
  watt: power wattage
  webserver: nginx apache httpd
  website: site webpage
  wi-fi: wifi wireless wlan
  wifi: wi-fi wireless wlan
  wireguard: vpn wg tunnel
  wireless: wifi wi-fi wlan radio
  wlan: wifi wireless
  workaround: fix
  workstation: pc desktop computer
  x509: certificate
  zfs: zpool openzfs
  zpool: pool zfs
`)
