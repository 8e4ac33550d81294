//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package place

import (
	"errors"

	"golang.org/x/sys/unix"
)

// hold locks the file for this run, unless another holds it. A file
// system without locks lets everybody through, since two runs at once are rare.
func hold(fd uintptr) (held bool) {
	return !errors.Is(unix.Flock(int(fd), unix.LOCK_EX|unix.LOCK_NB), unix.EWOULDBLOCK)
}
