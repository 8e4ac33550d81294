package check

import (
	"strings"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var rawHTML = &Check{
	Name: "raw-html", Severity: problem.Information,
	Summary: "markup in HTML, which pages show as text",
	Explain: "Pages are made of Markdown alone, so that no note can break or change them. " +
		"HTML is shown as it was typed; only comments are left out.",
	Example: "wrong|Torque the nuts <b>again</b>.\nright|Torque the nuts **again**. <!-- ask what the figure is -->\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, at := range w.note.Markup {
				if at, text := firstLine(at); text != "" && !strings.HasPrefix(text, "</") {
					p.Report(at, "HTML is shown as text: "+quote(text), "Write it as Markdown.")
				}
			}
		}
	},
}

// firstLine returns the first line of a piece of HTML.
func firstLine(at source.Span) (source.Span, string) {
	text := at.Text()
	start := len(text) - len(strings.TrimLeft(text, " \t\r\n"))
	text, _, _ = strings.Cut(text[start:], "\n")
	text = strings.TrimSpace(text)
	return at.Part(start, start+len(text)), text
}
