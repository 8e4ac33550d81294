package check

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"guidecoat/journal"
)

// width is how many columns explanations take on a terminal.
const width = 80

// About says what a check finds, why it matters, and shows it wrong and right, for 80 columns.
func (c *Check) About() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n", c.Name, c.Severity, wrap(c.Summary), wrap(c.Explain))
	bad, good := c.Examples()
	fmt.Fprintf(&b, "\nWrong:\n\n%s\nRight:\n\n%s", indent(bad), indent(good))
	return b.String()
}

// AboutNamed is that of the check of that name, of the notes or due after work; "" where there is none.
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

// AboutDue says of a check that work makes due after which work, why, and who says so.
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
