package check

import (
	"sort"
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
			if len(w.note.Markup) == 0 {
				continue
			}
			hidden := comments(w.note)
			for _, at := range w.note.Markup {
				if at, text := shown(at, hidden); text != "" && !strings.HasPrefix(text, "</") {
					p.Report(at, "HTML is shown as text: "+quote(text), "Write it as Markdown.")
				}
			}
		}
	},
}

// shown returns the first line of what a piece of HTML shows outside comments.
func shown(at source.Span, comments []source.Span) (source.Span, string) {
	data := at.File.Data
	first := sort.Search(len(comments), func(i int) bool { return comments[i].End > at.Start })
	for _, c := range comments[first:] {
		if strings.TrimSpace(string(data[at.Start:max(at.Start, min(c.Start, at.End))])) != "" {
			at.End = min(at.End, c.Start)
			break
		}
		at.Start = min(c.End, at.End)
	}
	text := at.Text()
	start := len(text) - len(strings.TrimLeft(text, " \t\r\n"))
	text, _, _ = strings.Cut(strings.TrimSpace(text), "\n")
	text = strings.TrimSpace(text)
	return at.Part(start, start+len(text)), text
}
