#!/bin/sh
# A small machine for recording real work, in namespaces of its own: nothing of the real machine is changed or shown.
# usage: unshare --uts --mount --net --pid --fork --kill-child sh stage.sh HOST RC
# HOST is the machine's name, RC the start file of its shell.
set -eu
host=$1 rc=$2
mount --make-rprivate /
mount -t proc proc /proc
rc_text=$(cat "$rc")
mount -t tmpfs none /mnt
for place in etc usr var; do
  mkdir -p /mnt/$place/upper /mnt/$place/work
  mount -t overlay none -o "lowerdir=/$place,upperdir=/mnt/$place/upper,workdir=/mnt/$place/work" /$place
done
for place in /home /root /srv /run /opt /media; do mount -t tmpfs -o mode=755 none $place; done
mount -t tmpfs -o mode=1777 none /tmp
mkdir -p /run/sshd /run/lock /media/stick
ip link set lo up
hostname "$host"
echo "$host" > /etc/hostname
printf '127.0.0.1 localhost\n127.0.0.1 %s.home.arpa %s\n' "$host" "$host" > /etc/hosts
: > /etc/machine-id
: > /etc/motd
rm -rf /etc/update-motd.d /etc/profile.d/* /etc/ssh/ssh_config.d /etc/ssh/sshd_config.d/* /etc/bash.bashrc
ssh-keygen -q -A
mkdir -p -m 700 /root/.ssh && ssh-keygen -q -t ed25519 -N '' -f /root/.ssh/id_ed25519 -C root
printf 'Host *\n StrictHostKeyChecking accept-new\n LogLevel ERROR\n' > /root/.ssh/config
ssh-keygen -q -t ed25519 -N '' -f /media/stick/orla -C orla
mkdir -p /srv/weather && cd /srv/weather
sqlite3 readings.db "create table reading(time text, temp real); insert into reading values ('2026-03-02T18:00:00Z',3.4),('2026-03-02T18:10:00Z',3.1);"
for n in 1 2 3 4 5 6 7 8 9; do echo "2026-03-02T18:0$n:00Z reading $n" >> station.log; done
mkdir -p /media/stick/pages && printf '<!doctype html>\n<title>Charts</title>\n<p>Tonight: clear.</p>\n' > /media/stick/pages/index.html
cp /media/stick/pages/index.html /media/stick/pages/west.html
cd /root
umask 022
printf '%s\n' "$rc_text" > /run/rc
exec env -i TERM=xterm-256color PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 HOME=/root HOSTNAME="$host" PAGER=cat SYSTEMD_PAGER=cat bash --noprofile --rcfile /run/rc -i
