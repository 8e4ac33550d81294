package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var leftAlone = &Check{
	Name:     journal.LeftAlone,
	Severity: problem.Information,
	Summary:  "a Markdown file that is neither a session nor a page",
	Explain: "A note is a session if its name begins with a date or it has a `date`, and a page of the site if it has a `page`. " +
		"Any other is left alone, which is right for a list of your own.",
	Bad:  "-- 2026-04-11.md --\n---\nstage: rear axle\n---\n-- ideas.md --\nPaint the calipers?\n",
	Good: "-- 2026-04-11.md --\n---\nstage: rear axle\n---\n-- ideas.md --\n---\npage: Ideas\n---\nPaint the calipers?\n",
	Say: func(f source.Fault) (string, string) {
		if f.Why != "" {
			return quote(f.Word) + " is left alone, since " + f.Why, "Rename it if it should count."
		}
		return quote(f.Word) + " is neither a session nor a page, and is left alone",
			"Begin its name with a date, or write \"page: TITLE\" in its front matter, if it should count."
	},
}
