// Package problem is what a check reports: its order, and its printing as text,
// JSON and SARIF. A problem says where something is wrong and how to put it
// right; which things are wrong is for package check to say.
package problem

import (
	"cmp"
	"fmt"
	"slices"

	"guidecoat/journal/source"
)

// Severity is what a problem means for the work. The zero value is invalid, so
// that a check which forgets to state one is found by the first test it meets.
type Severity int

const (
	// Error means that a line was left out: figures are incomplete and nothing is published.
	Error Severity = iota + 1
	// Warning means that everything was read but is probably not what was meant. It stops nothing.
	Warning
	// Information is worth knowing and is shown only when asked for.
	Information
)

// String returns the severity as text and JSON name it.
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	case Information:
		return "information"
	}
	return fmt.Sprintf("severity(%d)", int(s))
}

// A Problem is one mistake, reported once, at the place where it can be put right.
type Problem struct {
	// Check is the name of the check that found it, such as "unknown-stage".
	Check string
	// Severity is one of the three; never the zero value.
	Severity Severity
	// Span is as tight as the check can make it. Its File is never nil: what is
	// missing altogether stands at offset 0 of the file that should have it.
	Span source.Span
	// Message is one line that names the offending value. It begins with a small
	// letter, since "error, unknown-stage: " stands before it, and has no full stop.
	Message string
	// Help is a sentence or more that shows the way out, or empty where the
	// message says it all.
	Help string
	// Fix carries the help out, nil where help leaves a choice.
	Fix *source.Fix
	// File is the path of the file that the problem is about, other than the note it
	// stands in: it concerns only those who are shown that file. Mostly empty.
	File string
}

// Sort puts problems in the order in which they are printed: by path, place in
// the file, check and message. The order is the same whatever order they came in.
func Sort(problems []Problem) {
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(
			cmp.Compare(a.Span.File.Path, b.Span.File.Path),
			cmp.Compare(a.Span.Start, b.Span.Start), // within one file, the same as by line and column
			cmp.Compare(a.Check, b.Check),
			cmp.Compare(a.Message, b.Message),
			cmp.Compare(a.Span.End, b.Span.End),
			cmp.Compare(a.Help, b.Help),
			cmp.Compare(a.Severity, b.Severity),
		)
	})
}

// Count returns how many of the problems are errors and how many are warnings.
func Count(problems []Problem) (errors, warnings int) {
	for _, p := range problems {
		switch p.Severity {
		case Error:
			errors++
		case Warning:
			warnings++
		}
	}
	return errors, warnings
}
