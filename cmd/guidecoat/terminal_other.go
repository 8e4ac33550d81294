//go:build !unix && !windows

package main

import "os"

// terminal knows no terminals here.
func terminal(*os.File) (columns int, ok bool) { return 0, false }
