package check

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"guidecoat/journal"
)

// width is how many columns explanations take on a terminal.
const width = 80

// About returns what there is to say about a check: what it finds, why it matters,
// and an example of it wrong and right. It is ready for a terminal of 80 columns.
func (c *Check) About() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n", c.Name, c.Severity, wrap(c.Summary), wrap(c.Explain))
	bad, good := c.Examples()
	fmt.Fprintf(&b, "\nWrong:\n\n%s\nRight:\n\n%s", indent(bad), indent(good))
	return b.String()
}

// AboutNamed returns what there is to say about the check of that name, be it one of
// the notes or one that work makes due; "" where there is none.
func AboutNamed(name string) string {
	if c := Named(name); c != nil {
		return c.About()
	}
	return AboutDue(name)
}

// AboutAll returns the list of all checks, one a line.
func AboutAll() string {
	longest := 0
	for _, c := range All {
		longest = max(longest, len(c.Name))
	}
	var b strings.Builder
	for _, c := range All {
		fmt.Fprintf(&b, "%-*s  %-11s  %s\n", longest, c.Name, c.Severity, c.Summary)
	}
	return b.String()
}

// AboutDue returns what there is to say about a check that work makes due: after
// which work, why, and who says so. It is "" where no built-in row has the name.
func AboutDue(name string) string {
	var b strings.Builder
	for _, r := range journal.BuiltInDueRules() {
		if r.Name != name {
			continue
		}
		due, severity := "Due after ", r.Severity.String()
		if r.Before {
			due, severity = "Asked for before ", "a warning"
		}
		if due += r.When(); r.Far != nil {
			due += ", " + r.Later()
		}
		if r.Does != "" {
			due += ". What is looked at: " + r.Does
		}
		fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n%s\n", r.Name, severity, wrap(due+"."), wrap("Why: "+r.Because+"."), wrap("Source: "+r.Source+"."))
	}
	return b.String()
}

// wrap breaks a paragraph into lines.
func wrap(s string) string {
	var b strings.Builder
	column := 0
	for word := range strings.FieldsSeq(s) {
		n := utf8.RuneCountInString(word)
		switch {
		case column == 0:
		case column+1+n > width:
			b.WriteByte('\n')
			column = 0
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String()
}

// indent sets an example off from the words around it.
func indent(s string) string {
	var b strings.Builder
	for line := range strings.Lines(s) {
		if strings.TrimSpace(line) != "" {
			b.WriteString("    ")
		}
		b.WriteString(line)
	}
	return b.String()
}
