// Package problem is what a check reports: its order, and its printing as text, JSON and SARIF.
package problem

import (
	"cmp"
	"fmt"
	"slices"

	"guidecoat/journal/source"
)

// Severity is what a problem means for the work. The zero value is invalid: a forgotten one is found.
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
	// Span is as tight as can be. Its File is never nil: what is missing stands at offset 0.
	Span source.Span
	// Message is one line that names the value. It begins with a small letter and has no full stop.
	Message string
	// Help is a sentence or more that shows the way out, or empty.
	Help string
	// Fix carries the help out, nil where help leaves a choice.
	Fix *source.Fix
	// File is the path of another file that it is about: it concerns only who is shown that file.
	File string
}

// Sort puts problems in the order of printing: by path, place, check and message.
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
