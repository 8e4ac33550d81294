//go:build unix

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// terminal returns how many columns the terminal has that the file is, if it is one.
func terminal(f *os.File) (columns int, ok bool) {
	size, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0, false
	}
	if size.Col == 0 { // some do not know
		return narrowWidth, true
	}
	return int(size.Col), true
}
