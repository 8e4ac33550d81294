package themes

import (
	"errors"
	"html/template"
	"regexp"
	"strings"
	texttemplate "text/template"
)

// A Fault is a mistake in a template, found when it is read or when it is used.
type Fault struct {
	Place string // file:line, or file:line:column
	What  string
}

func (f *Fault) Error() string { return f.Place + ": " + f.What }

// Faults picks the mistakes in templates out of an error, each once: a mistake in
// what pages share comes up on every page.
func Faults(err error) []*Fault {
	var list []*Fault
	seen := map[Fault]bool{}
	var walk func(error)
	walk = func(err error) {
		switch e := err.(type) {
		case nil:
		case *Fault:
			if !seen[*e] {
				seen[*e] = true
				list = append(list, e)
			}
		case texttemplate.ExecError, *template.Error:
			walk(faultOf(err))
		case interface{ Unwrap() []error }:
			for _, below := range e.Unwrap() {
				walk(below)
			}
		default:
			walk(errors.Unwrap(err))
		}
	}
	walk(err)
	return list
}

var (
	told      = regexp.MustCompile(`(?s)^(?:html/)?template: ?(.+?(?::\d+){1,2}): (.*)$`)
	executing = regexp.MustCompile(`^executing ".*?" at `)
	ofType    = regexp.MustCompile(` in type \*?render\.(\w+)`)
)

// faultOf takes the place and the reason out of what the template packages say,
// who have no other way to tell. It leaves out which of our types was at fault.
func faultOf(err error) *Fault {
	m := told.FindStringSubmatch(err.Error())
	if m == nil {
		return &Fault{Place: "templates", What: strings.TrimPrefix(strings.TrimPrefix(err.Error(), "html/"), "template: ")}
	}
	what := executing.ReplaceAllString(m[2], "")
	return &Fault{Place: m[1], What: ofType.ReplaceAllString(what, " on this page ($1)")}
}
