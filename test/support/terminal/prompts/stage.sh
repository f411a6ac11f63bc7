#!/bin/sh
# Sets a small machine up for recording, in namespaces of its own: nothing of the real machine is changed or shown.
# usage: unshare --uts --mount --net --pid --fork --kill-child sh stage.sh WORK HOST
# WORK is an empty folder outside. A tmux server waits on WORK/tmux; the shells append what they run to WORK/truth.
set -eu
work=$1 host=$2
mount --make-rprivate /
mount -t proc proc /proc
mkdir -p "$work/etc"
mount -t tmpfs none "$work/etc"
mkdir "$work/etc/upper" "$work/etc/work"
mount -t overlay none -o "lowerdir=/etc,upperdir=$work/etc/upper,workdir=$work/etc/work" /etc
for place in /home /root /srv /run /mnt /opt; do mount -t tmpfs -o mode=755 none $place; done
mkdir -p /run/sshd /run/lock
ip link set lo up
hostname "$host"
cat > /etc/hosts <<'END'
127.0.0.1 localhost
127.0.0.1 weather.home.arpa weather
127.0.0.1 clock.home.arpa clock
127.0.0.1 gate.home.arpa gate
127.0.0.1 desk.home.arpa desk
END
echo "$host" > /etc/hostname
printf 'The observatory’s machines. Ask before you restart one.\n' > /etc/motd
rm -rf /etc/update-motd.d /etc/profile.d/* /etc/ssh/ssh_config.d /etc/ssh/sshd_config.d
: > /etc/machine-id
for user in mira orla; do
  useradd --create-home --shell /bin/bash $user 2>/dev/null
  echo "$user:starlight" | chpasswd
done
printf 'mira ALL=(ALL:ALL) ALL\norla ALL=(ALL:ALL) NOPASSWD: ALL\nDefaults lecture=never\n' > /etc/sudoers.d/observatory

# What each bash runs: before a command it appends shell, user, host, directory and the line as it was read.
cat > /etc/truth.bash <<END
truth_() {
  local line=\$(HISTTIMEFORMAT= builtin history 1)
  line=\${line#"\${line%%[![:space:]]*}"}; line=\${line#"\${line%%[!0-9*]*}"}; line=\${line#'  '}
  printf '%s\0' bash "\$(id -un)" "\$HOSTNAME" "\$PWD" "\$line" >> $work/truth
}
PS0='\$(truth_)'
HISTCONTROL= HISTFILE= HISTSIZE=1000
shopt -s cmdhist lithist checkwinsize
LS_COLORS= PAGER=cat EDITOR=vi GIT_PAGER=cat
export PAGER EDITOR GIT_PAGER
END
: > "$work/truth"; chmod 666 "$work/truth"
cat > /etc/bash.bashrc <<'END'
. /etc/truth.bash
PS1='\u@\h:\w\$ '
END
for home in /root /home/mira /home/orla; do
  printf '[ -f ~/.prompt ] && . ~/.prompt\n:\n' > $home/.bashrc
  printf '[ -f /etc/bash.bashrc ] && . /etc/bash.bashrc\n. ~/.bashrc\n' > $home/.bash_profile
  printf '[user]\n name = Mira Quist\n email = mira@observatory.example.org\n[init]\n defaultBranch = main\n[advice]\n detachedHead = false\n' > $home/.gitconfig
done

# The logger's folder, with texts that look like prompts and are none.
mkdir -p /srv/logger/conf /srv/logger/docs && cd /srv/logger
cat > README.md <<'END'
# Weather logger

Reads the station every two seconds and keeps the readings.

## To install

    $ sudo apt install python3-serial sqlite3
    $ sudo systemctl enable --now logger

Then look at it:

```console
$ systemctl status logger
# journalctl -u logger
```

> The mast must be down before the station is opened.

100 % of the readings go to readings.db > the archive takes them from there.
END
cat > conf/logger.conf <<'END'
# Where the station is plugged in.
port = /dev/ttyUSB0
# Seconds between two readings.
# Do not go below 2: the station answers slowly.
interval = 2

# Where the readings go
database = /srv/logger/readings.db
# keep = 400 days
### alarms ###
#alarm = wind > 20
END
cat > docs/move.txt <<'END'
How clock was moved, from the terminal of that evening:

root@clock:~# systemctl stop chrony
root@clock:~# tar -C / -cf /mnt/stick/chrony.tar etc/chrony
root@clock:~# poweroff

Costs: 12 $ for the stick, 3 # of screws.
END
cat > readings.csv <<'END'
time,temperature,wind,note
2026-03-02T18:00:00Z,3.4,5.1,
2026-03-02T18:10:00Z,3.1,6.0,gust > 9
2026-03-02T18:20:00Z,2.9,7.2,50 % cloud
2026-03-02T18:30:00Z,2.7,21.4,alarm # wind
END
cat > check.py <<'END'
# Counts the readings above a wind speed.
import csv, sys

limit = float(sys.argv[1])
rows = list(csv.DictReader(open('/srv/logger/readings.csv')))
print(sum(float(row['wind']) > limit for row in rows), 'of', len(rows))
END
sqlite3 readings.db "create table reading(time text, temperature real, wind real); insert into reading values ('2026-03-02T18:00:00Z',3.4,5.1),('2026-03-02T18:10:00Z',3.1,6.0),('2026-03-02T18:30:00Z',2.7,21.4);"
export HOME=/root
git init -q . && git add README.md conf check.py && git commit -qm 'Keep the logger’s files' && git checkout -qb calm && echo '# gusts: 9' >> conf/logger.conf && git commit -qam 'Note the gusts' && git checkout -q main
chown -R mira:mira /srv/logger
cat > /srv/watch.sh <<'END'
#!/bin/sh
for n in 1 2 3; do echo "\$ reading $n"; sleep 0.1; done
END
chmod 755 /srv/watch.sh

ssh-keygen -q -A
for from in mira root; do
  home=$(getent passwd $from | cut -d: -f6)
  mkdir -p -m 700 $home/.ssh && ssh-keygen -q -t ed25519 -N '' -f $home/.ssh/id_ed25519 -C $from
  printf 'Host *\n StrictHostKeyChecking accept-new\n LogLevel ERROR\n' > $home/.ssh/config
  chown -R $from $home/.ssh
done
mkdir -m 700 /home/orla/.ssh && cat /home/mira/.ssh/id_ed25519.pub /root/.ssh/id_ed25519.pub > /home/orla/.ssh/authorized_keys && chown -R orla /home/orla/.ssh
# A second host name behind the same loopback: where ssh leads to.
unshare --uts sh -c 'hostname weather; exec /usr/sbin/sshd -o UsePAM=no -o PrintMotd=yes -o PrintLastLog=no -o AcceptEnv=none'

# The recorded commands write to /tmp, where the folder for outside must still be found.
mkdir /mnt/work && mount --bind "$work" /mnt/work
mount -t tmpfs -o mode=1777 none /tmp && mkdir -p "$work" && mount --bind /mnt/work "$work"

[ -f "$work/more.sh" ] && . "$work/more.sh"
cd /
tmux -S "$work/tmux" -f /dev/null new-session -d -x "${3:-90}" -y 28 -s s "env -i TERM=xterm-256color PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 HOME=/root sh"
touch "$work/ready"
while [ -e "$work/ready" ]; do sleep 0.2; done
tmux -S "$work/tmux" kill-server
