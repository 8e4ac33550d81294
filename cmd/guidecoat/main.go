// Command guidecoat compiles the notes of a build: it checks them, works out what
// the build has cost and will cost, and finds all that is still outstanding.
//
// What it answers goes to standard output; problems and progress go to standard
// error. It never writes to a note.
package main

import (
	"context"
	"os"
	"time"
)

func main() {
	os.Exit(run(context.Background(), world{os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv, time.Now}))
}
