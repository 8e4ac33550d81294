//go:build unix

package place

import (
	"errors"
	"syscall"
)

// full, readOnly and busy tell what sort of error the system has given.

func full(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}

func readOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

func busy(err error) bool { return errors.Is(err, syscall.EBUSY) }

// cannotExchange tells that exchanging two folders is not known here, rather than
// that it went wrong.
func cannotExchange(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.EPERM)
}
