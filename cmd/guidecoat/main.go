// Command guidecoat compiles the notes of a build: it checks them, works out what
// the build has cost and will cost, and finds all that is still outstanding.
//
// What it answers goes to standard output; problems and progress go to standard
// error. It never writes to a note.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"guidecoat/journal/measure"

	"github.com/spf13/cobra"
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

// A world is all that a run takes from outside: clock, environment, streams.
type world struct {
	args           []string
	stdin          io.Reader
	stdout, stderr io.Writer
	getenv         func(string) string
	now            func() time.Time
	cache          string // the folder for what may be lost and saves work; "" for none
}

// The exit codes. Warnings never change them.
const (
	exitDone     = 0
	exitProblems = 1 // the notes hold errors, or a requirement is not met
	exitUsage    = 2
	exitFiles    = 3 // files could not be read or written
)

// An exit ends the run with a code. Its message may be empty, where all has been said.
type exit struct {
	code          int
	message, help string
}

func (e *exit) Error() string { return e.message }

func wrongUsage(help, format string, args ...any) error {
	return &exit{exitUsage, fmt.Sprintf(format, args...), help}
}

func fileTrouble(help, format string, args ...any) error {
	return &exit{exitFiles, fmt.Sprintf(format, args...), help}
}

func run(ctx context.Context, w world) int {
	root := newRoot(&w)
	root.SetArgs(append([]string{}, w.args...)) // never nil, or cobra reads the real ones
	root.SetIn(w.stdin)
	root.SetOut(w.stdout)
	root.SetErr(w.stderr)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitDone
	}
	e, ok := errors.AsType[*exit](err)
	if !ok { // cobra's own errors are all about the arguments
		e = &exit{exitUsage, err.Error(), ""}
	}
	if e.message != "" {
		for line := range strings.SplitSeq(e.message, "\n") { // of errors that were joined
			w.say("guidecoat: %s", line)
		}
	}
	if e.help != "" {
		w.say("%s", e.help)
	}
	return e.code
}

// today is the day it is where the program runs, or the one that a reproducible
// build asks for: https://reproducible-builds.org/specs/source-date-epoch/
func (w *world) today() measure.Date {
	if seconds, err := strconv.ParseInt(w.getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		return measure.FromTime(time.Unix(seconds, 0).UTC())
	}
	return measure.FromTime(w.now())
}

// commands are all commands, in the order in which the help lists them.
func commands() []func(*world) *cobra.Command {
	return []func(*world) *cobra.Command{
		newNote, newProofread, newCosts, newSnags, newParts, newBid, newChoices, newPublish, newHandover, newPreview, newLanguageServer, newManual, newCompletion,
	}
}

func newRoot(w *world) *cobra.Command {
	root := &cobra.Command{
		Use:   "guidecoat",
		Short: "Compiles the notes of a vehicle's rebuild.",
		Long: "Checks the notes of a vehicle's rebuild, works out what it has cost and will cost, and finds " +
			"everything that is still outstanding. The notes are never changed.",
		Example:           "guidecoat note --build \"Halden hatchback\" halden\nguidecoat note halden\nguidecoat proofread halden",
		Version:           version(),
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true}, // see newCompletion
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			return nil
		},
		RunE:              func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
		ValidArgsFunction: cobra.NoFileCompletions,
	}
	root.Flags().Bool("version", false, "print the version")
	root.SetVersionTemplate("guidecoat {{.Version}}\n")
	root.SetHelpCommand(newHelp(w))
	root.SetHelpFunc(w.help)
	root.SetFlagErrorFunc(w.flagTrouble)
	for _, make := range commands() {
		root.AddCommand(make(w))
	}
	for _, cmd := range append(root.Commands(), root) {
		cmd.Flags().BoolP("help", "h", false, "show this help")
	}
	return root
}

func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "development"
}
