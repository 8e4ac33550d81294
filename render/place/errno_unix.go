//go:build unix

package place

import (
	"errors"

	"golang.org/x/sys/unix"
)

// full, readOnly and the others tell what sort of error the system has given.

func full(err error) bool {
	return errors.Is(err, unix.ENOSPC) || errors.Is(err, unix.EDQUOT) || errors.Is(err, unix.EFBIG)
}

func readOnly(err error) bool { return errors.Is(err, unix.EROFS) }

func tooLong(err error) bool { return errors.Is(err, unix.ENAMETOOLONG) }

// unmovable is said of a folder that came with the image of a container.
func unmovable(err error) bool { return errors.Is(err, unix.EXDEV) }

func busy(err error) bool { return errors.Is(err, unix.EBUSY) }

// cannotExchange tells that exchanging two folders is not known here.
func cannotExchange(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, unix.EINVAL) || errors.Is(err, unix.EPERM)
}

// noWait opens what may be a pipe without waiting for somebody to write to it.
const noWait = unix.O_NONBLOCK
