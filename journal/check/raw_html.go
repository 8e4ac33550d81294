package check

import (
	"bytes"
	"strings"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var rawHTML = &Check{
	Name:     "raw-html",
	Severity: problem.Information,
	Summary:  "markup in HTML, which pages show as text",
	Explain: "Pages are made of Markdown alone, so that no note can break or change them. " +
		"HTML is shown as it was typed; only comments are left out.",
	Bad:  "Torque the nuts <b>again</b>.\n",
	Good: "Torque the nuts **again**. <!-- ask what the figure is -->\n",
	Run: func(p *Pass) {
		for _, w := range p.notes() {
			if bytes.IndexByte(w.note.File.Data, '<') < 0 {
				continue
			}
			markup(w.note, func(text string, at source.Span) {
				text = strings.TrimSpace(text)
				if strings.HasPrefix(text, commentOpens) || strings.HasPrefix(text, "</") {
					return
				}
				first, _, _ := strings.Cut(text, "\n")
				p.Report(at, "HTML is shown as text: "+quote(strings.TrimSpace(first)), "Write it as Markdown.")
			})
		}
	},
}
