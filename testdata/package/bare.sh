#!/usr/bin/env bash
# What the packages and the README's commands do on a Debian that has nothing.
#
#   testdata/package/bare.sh package PACKAGE.deb ROOT
#   testdata/package/bare.sh readme ROOT
#
# ROOT is a folder for a bare system, made with debootstrap where it is not there yet;
# "package" installs the package in it, starts the window on a virtual display, draws a
# slab with keys alone, prints it, and looks at what the desktop would see. "readme" copies
# the checkout (what is committed), Go and its module cache in, and does what the
# README says: go run ./cmd/dev run. Pictures and a log stand in ROOT/tmp/seen.
#
# It needs root, debootstrap and the machine's own Debian mirror. HAUNCHBOOK_MIRROR
# names another one.
set -euo pipefail

fail() { echo "bare.sh: $*" >&2; exit 1; }
step() { echo; echo "== $*"; }

[ "$(id -u)" = 0 ] || fail "run it as root: it makes a system"
what=${1:-}
case $what in
package) deb=$(realpath "${2:?the package}"); root=${3:?the folder} ;;
readme) root=${2:?the folder} ;;
*) fail "say package or readme" ;;
esac
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)

if [ ! -e "$root/etc/debian_version" ]; then
	step "a bare Debian in $root"
	mirror=${HAUNCHBOOK_MIRROR:-$(apt-get indextargets --format '$(SITE)' 'Created-By: Packages' | head -1)}
	suite=$(. /etc/os-release && echo "$VERSION_CODENAME")
	debootstrap --variant=minbase --include=ca-certificates "$suite" "$root" "$mirror" >"/tmp/debootstrap.$$" 2>&1 ||
		{ tail -5 "/tmp/debootstrap.$$" >&2; fail "debootstrap failed"; }
	cp /etc/apt/apt.conf.d/*registry* "$root/etc/apt/apt.conf.d/" 2>/dev/null || true # how this machine reaches its mirror
fi
root=$(realpath "$root")
ls "$root"/root/*/*layout.pdf >/dev/null 2>&1 && fail "sheets were printed in $root before; begin with a new folder"
mkdir -p "$root/tmp/seen"
cp /etc/resolv.conf "$root/etc/resolv.conf"
mount --bind /proc "$root/proc"
mount --bind /dev "$root/dev"
mount --bind /dev/pts "$root/dev/pts"
trap 'umount -l "$root/dev/pts" "$root/dev" "$root/proc"' EXIT
inside() { chroot "$root" env -i PATH=/usr/local/go/bin:/usr/local/sbin:/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }

step "what the bare system has: $(inside dpkg-query -f '.\n' -W | wc -l) packages, gcc: $(inside sh -c 'command -v gcc || echo none'), display: none"

if [ "$what" = package ]; then
	cp "$deb" "$root/tmp/haunchbook.deb"
	step "install the package, with what it depends on and nothing else"
	inside apt-get -q update >/dev/null
	inside apt-get -q install -y --no-install-recommends /tmp/haunchbook.deb | tail -3
	inside haunchbook -version
	step "without a display: one line"
	said=$(inside haunchbook 2>&1) && fail "it started without a display"
	echo "$said"
	[ "$(echo "$said" | wc -l)" = 1 ] || fail "that is more than a line"
	step "the sheets without a window"
	inside sh -c 'cd /tmp/seen && haunchsheet -quiet -out sheets && ls -l sheets'
	inside sh -c 'head -c 5 /tmp/seen/sheets/layout.pdf | grep -q %PDF-' || fail "layout.pdf is no PDF"
	step "what the tests drive the window with"
	inside apt-get -q install -y --no-install-recommends xvfb xdotool x11-utils imagemagick shared-mime-info libglib2.0-bin desktop-file-utils openbox man-db | tail -1
	cat >"$root/tmp/seen/plain.json" <<-'JOB'
		{"haunchbook": 7, "name": "From a file", "slabs": [{"field": "4\"", "sections": [{"name": "Edge", "depth": "12\"", "bottom": "12\"", "taper": "8\""}],
		"outline": [{"at": ["0", "0"], "section": "Edge"}, {"at": ["16'", "0"], "section": "Edge"}, {"at": ["16'", "12'"], "section": "Edge"}, {"at": ["0", "12'"], "section": "Edge"}]}]}
	JOB
	cp "$root/tmp/seen/plain.json" "$root/tmp/seen/plain.haunchbook.json"
	step "what the desktop knows"
	inside desktop-file-validate /usr/share/applications/haunchbook.desktop
	kind=$(inside gio info -a standard::content-type /tmp/seen/plain.haunchbook.json | sed -n 's/.*content-type: //p')
	echo "a job file is of the type $kind; opened by $(inside gio mime "$kind" | sed -n 's/^.*: //p' | head -1)"
	[ "$kind" = application/x-haunchbook-job+json ] || fail "a job file has the type $kind"
	inside man -P cat haunchbook | sed -n 1,4p
else
	step "Go, its module cache and the checkout are copied in"
	mkdir -p "$root/src/haunchbook" "$root/root/go/pkg"
	[ -e "$root/usr/local/go" ] || cp -a "$(go env GOROOT)" "$root/usr/local/go"
	[ -e "$root/root/go/pkg/mod" ] || cp -a "$(go env GOMODCACHE)" "$root/root/go/pkg/mod"
	git -C "$here" archive HEAD | tar -x -C "$root/src/haunchbook"
	inside apt-get -q update >/dev/null
	inside apt-get -q install -y --no-install-recommends xvfb xdotool x11-utils imagemagick openbox | tail -1
fi

# The rest runs within: a display with a window manager, and the window driven by keys.
cat >"$root/tmp/seen/drive.sh" <<'DRIVE'
set -eu
cd /tmp/seen
Xvfb :77 -screen 0 1300x900x24 >xvfb.log 2>&1 & xvfb=$!
trap 'kill $(jobs -p) 2>/dev/null' EXIT
export DISPLAY=:77
tries() { for _ in $(seq "$1"); do if eval "$2"; then return 0; fi; sleep 1; done; echo "waited in vain: $2" >&2; return 1; }
tries 20 'xdpyinfo >/dev/null 2>&1' || { cat xvfb.log; exit 1; }
openbox >openbox.log 2>&1 &
look() { import -window root "$1.png"; echo "picture: $1.png"; }
titled() { tries "${2:-60}" "xdotool search --onlyvisible --name '$1' >/dev/null 2>&1"; }
if [ "$1" = package ]; then
	setsid haunchbook plain.json >window.log 2>&1 & window=$!
	titled 'From a file'
	sleep 3
	look 1-file-of-the-command-line
	sed 's/From a file/Handed over/' plain.json >second.json
	timeout 30 haunchbook second.json # goes to the window that runs
	titled 'Handed over'
	echo "a file that is opened while the window runs is opened there"
	class=$(xprop -id "$(xdotool search --onlyvisible --name 'Handed over' | tail -1)" WM_CLASS)
	echo "$class; desktop entry: $(grep StartupWMClass /usr/share/applications/haunchbook.desktop)"
	case $class in *'"Haunchbook"') ;; *) echo "the class of the window is not that of the entry"; exit 1 ;; esac
else
	cd /src/haunchbook
	setsid go run ./cmd/dev run >/tmp/seen/dev-run.log 2>&1 & window=$!
	titled Haunchbook 3600 || { tail -20 /tmp/seen/dev-run.log; exit 1; }
	cd /tmp/seen
	sleep 5
	look 1-dev-run
fi
xdotool key ctrl+n
titled 'New job'
sleep 1
xdotool key r
xdotool type --delay 80 '24 x 30'
xdotool key Return
sleep 4
look 2-drawn
xdotool key ctrl+p
sleep 3
look 3-print
xdotool key Tab Tab Tab Tab space
tries 60 'ls /root/*/*layout.pdf >/dev/null 2>&1' || { look 4-not-printed; exit 1; }
sleep 3
look 4-printed
ls -l /root/*/
head -c 5 /root/*/*layout.pdf | grep -q %PDF- && echo "the sheet that the window printed is a PDF"
kill -- "-$window" # with all that it started
DRIVE
step "the window on a virtual display: drawn with keys, printed"
inside bash /tmp/seen/drive.sh "$what"
echo
echo "done; pictures in $root/tmp/seen"
