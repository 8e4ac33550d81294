package check

import "guidecoat/journal/problem"

var boxOnCard = &Check{
	Name: "box-on-card", Severity: problem.Warning,
	Summary: "an open box on the job card, which is followed nowhere",
	Explain: "What is outstanding is opened in the note of a session, which has a date. On the job card a box is only words: " +
		"no list has it, and the handover knows nothing of it.",
	Example: "-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\n---\nwrong|- [ ] rear belt does not latch\n-- 2026-04-11.md --\nLooked it over.\n\nright|- [ ] rear belt does not latch\n",
	Run: func(p *Pass) {
		for _, it := range p.State.Build.Card.Note.Items {
			if !it.Ticked {
				p.Report(it.HeadSpan(), "an open box on the job card is followed nowhere", "Write the line in the note of a session.")
			}
		}
	},
}
