// Command guidecoat compiles the notes of a build: it checks them, works out what
// the build has cost and will cost, and finds all that is still outstanding.
//
// What it answers goes to standard output; problems and progress go to standard
// error. It never writes to a note.
package main

import (
	"context"
	"os"
	"runtime/debug"
	"time"
)

// gcPercent lets the heap grow to five times what is in use before it is searched
// for garbage. A run is short and keeps most of what it reads, so searching oftener
// finds little.
const gcPercent = 400

// memoryLimit is where that ends: towards it garbage is searched for as often as it
// takes. GOMEMLIMIT sets another, as for every program in Go.
const memoryLimit = 1700 << 20

func main() {
	debug.SetGCPercent(gcPercent)
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
	cache, _ := os.UserCacheDir() // without one, more is made again
	os.Exit(run(context.Background(), world{os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, time.Now, cache}))
}
