package note

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/money"
	"guidecoat/journal/source"
)

var pounds = money.Currency{Code: "GBP", Digits: 2}

// readNote reads data as a note of those kinds, in pounds.
func readNote(kinds []*Kind, data string) *Note {
	n := Open(source.NewFile("a.md", []byte(data)))
	n.Read(kinds, pounds)
	return n
}

// sessionOf reads a session note whose front matter is those lines.
func sessionOf(lines ...string) *Note {
	return readNote(Session, "---\n"+strings.Join(lines, "\n")+"\n---\n")
}

// bodyOf reads a session note with that body; the body begins on line 4.
func bodyOf(body string) *Note {
	return readNote(Session, "---\ndate: 2026-04-11\n---\n"+body)
}

// faultsOf lists what a note's faults say: flaw, place and text, as
// "bad-date 2:7-2:17 |2026-02-30|".
func faultsOf(n *Note) []string {
	list := []string{}
	for _, f := range n.Faults {
		list = append(list, faultLine(f))
	}
	return list
}

func faultLine(f source.Fault) string {
	from, to := f.Span.Begin(), f.Span.Finish()
	return fmt.Sprintf("%s %d:%d-%d:%d |%s|", f.Flaw, from.Line, from.Column, to.Line, to.Column, f.Span.Text())
}

// fieldsOf shows what the front matter holds by key, as `cost=-|12.00| time=|3h|`.
func fieldsOf(n *Note) string {
	var list []string
	for _, f := range n.Fields {
		s := f.Key
		if f.Repeated {
			s += "(again)"
		}
		s += "="
		if f.Value.S != "" {
			s += "|" + f.Value.S + "|"
		}
		for _, e := range f.Entries {
			switch {
			case e.Unusable:
				s += "!"
			case e.Dash:
				s += "-"
			default:
				s += "+"
			}
			s += "|" + e.Text.S + "|"
		}
		list = append(list, s)
	}
	return strings.Join(list, " ")
}

func wantFaults(t *testing.T, what string, n *Note, want ...string) {
	t.Helper()
	if got := faultsOf(n); !slices.Equal(got, want) && len(got)+len(want) > 0 {
		t.Errorf("%s\nfaults %q\nwant   %q", what, got, want)
	}
}

func newTestFile(data string) *source.File { return source.NewFile("a.md", []byte(data)) }
