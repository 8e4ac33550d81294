package note

import (
	"fmt"
	"strings"
)

// Manual returns the tables of the manual that say what a line of those kinds
// holds and which clauses it may carry, in Markdown.
func Manual(kinds []*Kind) string {
	var b strings.Builder
	b.WriteString("| key | holds | meaning |\n|---|---|---|\n")
	for _, k := range kinds {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", k.Key, k.form(), cell(k.About))
	}
	for _, k := range kinds {
		if len(k.Clauses) > 0 {
			fmt.Fprintf(&b, "\n## Clauses of `%s`\n\n%s", k.Key, k.ManualClauses())
		}
	}
	return b.String()
}

// ManualClauses returns the table of the clauses of a kind, in Markdown.
func (k *Kind) ManualClauses() string {
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
		if c.Value != nil && len(c.Value.Near) > 0 && len(c.Value.Near) < len(Systems) {
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
func (k *Kind) form() string {
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
	case Many:
		return "a line or lines: `" + head + "`"
	case Named:
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
