package place

import (
	"errors"

	"golang.org/x/sys/windows"
)

// full, readOnly and the others tell what sort of error the system has given.

func full(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL) ||
		errors.Is(err, windows.ERROR_DISK_QUOTA_EXCEEDED)
}

func readOnly(err error) bool { return errors.Is(err, windows.ERROR_WRITE_PROTECT) }

func tooLong(err error) bool { return errors.Is(err, windows.ERROR_FILENAME_EXCED_RANGE) }

func unmovable(err error) bool { return errors.Is(err, windows.ERROR_NOT_SAME_DEVICE) }

func busy(err error) bool { return errors.Is(err, windows.ERROR_BUSY) }

// cannotExchange tells that exchanging two folders is not known here.
func cannotExchange(err error) bool { return errors.Is(err, errors.ErrUnsupported) }

// noWait is nothing where no pipe has a name among files.
const noWait = 0
