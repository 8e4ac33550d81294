//go:build unix

package place

import (
	"errors"

	"golang.org/x/sys/unix"
)

// What the system says, by what it means for the site.
var (
	full      = []error{unix.ENOSPC, unix.EDQUOT, unix.EFBIG}
	readOnly  = []error{unix.EROFS}
	tooLong   = []error{unix.ENAMETOOLONG}
	unmovable = []error{unix.EXDEV} // a folder that came with the image of a container
	busy      = []error{unix.EBUSY}

	notExchanged = []error{errors.ErrUnsupported, unix.EINVAL, unix.EPERM} // exchanging two folders is not known here
)

// noWait opens what may be a pipe without waiting for somebody to write to it.
const noWait = unix.O_NONBLOCK
