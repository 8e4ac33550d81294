//go:build !unix && !windows

package place

import "errors"

func full(error) bool      { return false }
func readOnly(error) bool  { return false }
func tooLong(error) bool   { return false }
func unmovable(error) bool { return false }
func busy(error) bool      { return false }

func cannotExchange(err error) bool { return errors.Is(err, errors.ErrUnsupported) }

// noWait is nothing where no pipe has a name among files.
const noWait = 0
