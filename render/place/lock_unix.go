//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package place

import (
	"errors"

	"golang.org/x/sys/unix"
)

// hold locks the file for this run, unless another holds it; without locks it lets everybody through.
func hold(fd uintptr) (held bool) {
	return !errors.Is(unix.Flock(int(fd), unix.LOCK_EX|unix.LOCK_NB), unix.EWOULDBLOCK)
}
