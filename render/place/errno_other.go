//go:build !unix && !windows

package place

import "errors"

// Of what the system says, no more is known.
var full, readOnly, tooLong, unmovable, busy []error

var notExchanged = []error{errors.ErrUnsupported}

// noWait is nothing where no pipe has a name among files.
const noWait = 0
