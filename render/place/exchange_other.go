//go:build !linux

package place

import (
	"errors"
	"os"
)

// settle does nothing where no one call brings all files to the disk; the next run compares.
func settle(*os.Root) error { return nil }

// exchange is not known on this system.
func exchange(*os.Root, string, string) error { return errors.ErrUnsupported }
