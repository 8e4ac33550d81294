package manual

import (
	"fmt"
	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/note"
	"strings"
)

// The tables of the manual that are made from the code, in Markdown.

// keysTable says what a line of those kinds holds and which clauses it may carry.
func keysTable(kinds []*note.Kind) string {
	var b strings.Builder
	b.WriteString("| key | holds | meaning |\n|---|---|---|\n")
	for _, k := range kinds {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", k.Key, form(k), cell(k.About))
	}
	for _, k := range kinds {
		if len(k.Clauses) > 0 {
			fmt.Fprintf(&b, "\n## Clauses of `%s`\n\n%s", k.Key, clausesTable(k))
		}
	}
	return b.String()
}

// clausesTable is that of the clauses of a kind.
func clausesTable(k *note.Kind) string {
	var b strings.Builder
	b.WriteString("| clause | meaning |\n|---|---|\n")
	for _, c := range k.Clauses {
		form := c.Word
		switch {
		case c.Optional:
			form += " [" + c.Value.Name + "]"
		case c.Value != nil:
			form += " " + c.Value.Name
		}
		about := c.About
		if c.Value != nil && len(c.Value.Near) > 0 && len(c.Value.Near) < len(note.Systems) {
			about += ": " + strings.Join(c.Value.Near, ", ")
		}
		if c.Repeat {
			about += "; may repeat"
		}
		fmt.Fprintf(&b, "| `%s` | %s |\n", form, cell(about))
	}
	return b.String()
}

// form is what stands at a key, as the manual writes it.
func form(k *note.Kind) string {
	head := "text"
	if k.Head != nil {
		head = k.Head.Name
	}
	if k.Words {
		head += " [description]"
	}
	if len(k.Clauses) > 0 {
		head += "; clauses"
	}
	switch k.Shape {
	case note.Many:
		return "a line or lines: `" + head + "`"
	case note.Named:
		name := "NAME"
		if k.Name != nil {
			name = k.Name.Name
		}
		return "lines: `" + name + ": " + head + "`"
	}
	return "`" + head + "`"
}

// cell keeps a text inside one cell of a table.
func cell(s string) string { return strings.ReplaceAll(s, "|", "\\|") }

// dueTable is that of work and checks.
func dueTable() string {
	var b strings.Builder
	b.WriteString("| what asks for it | check | severity | because | source |\n|---|---|---|---|---|\n")
	for _, r := range journal.BuiltInDueRules() {
		name, severity := "`"+r.Name+"`", r.Severity.String()
		if r.Does != "" {
			name += ": " + r.Does
		}
		if r.Far != nil {
			name += ", " + r.Later()
		}
		if r.Before {
			name, severity = name+"; before the work", "a warning"
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", r.When(), name, severity, r.Because, r.Source)
	}
	return b.String()
}

// checksTable is the list of all checks.
func checksTable() string {
	var b strings.Builder
	b.WriteString("| check | severity | finds |\n|---|---|---|\n")
	for _, c := range check.All {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", c.Name, c.Severity, cell(c.Summary))
	}
	return b.String()
}
