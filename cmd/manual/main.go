// Command manual writes the tables of README.md that are made from the code: the
// keys and clauses of the note language, the units, the checks due, the settings and the
// checks. Run it from the top of the repository after changing one of them:
//
//	go run ./cmd/manual
package main

import (
	"fmt"
	"os"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
)

// sections are the parts of the README that are made, by the name in their markers.
var sections = []struct {
	name string
	text func() string
}{
	{"session keys", func() string { return note.Manual(note.Session) }},
	{"units", measure.ManualUnits},
	{"snag clauses", note.Snag.ManualClauses},
	{"due checks", journal.ManualDueRules},
	{"card keys", func() string { return note.Manual(note.Card) }},
	{"public settings", journal.ManualPublic},
	{"garage keys", func() string { return note.Manual(note.Garage) }},
	{"checks", check.Table},
}

// fill returns the README with its made parts anew.
func fill(readme string) (string, error) {
	for _, s := range sections {
		begin, end := "<!-- "+s.name+" -->\n", "<!-- end -->"
		before, rest, ok := strings.Cut(readme, begin)
		_, after, closed := strings.Cut(rest, end)
		if !ok || !closed {
			return "", fmt.Errorf("README.md has no part %q", s.name)
		}
		readme = before + begin + "\n" + strings.TrimSpace(s.text()) + "\n\n" + end + after
	}
	return readme, nil
}

func main() {
	const name = "README.md"
	data, err := os.ReadFile(name)
	if err == nil {
		var text string
		if text, err = fill(string(data)); err == nil {
			err = os.WriteFile(name, []byte(text), 0o644)
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
