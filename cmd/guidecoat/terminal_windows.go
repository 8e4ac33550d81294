package main

import (
	"os"

	"golang.org/x/sys/windows"
)

// terminal returns how many columns the console has that the file is, if it is one that can show colours.
func terminal(f *os.File) (columns int, ok bool) {
	handle := windows.Handle(f.Fd())
	var mode uint32
	if windows.GetConsoleMode(handle, &mode) != nil {
		return 0, false
	}
	if windows.SetConsoleMode(handle, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) != nil {
		return 0, false
	}
	var info windows.ConsoleScreenBufferInfo
	if windows.GetConsoleScreenBufferInfo(handle, &info) != nil {
		return narrowWidth, true
	}
	return int(info.Window.Right-info.Window.Left) + 1, true
}
