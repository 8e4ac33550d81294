package check

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// Items that nobody would see for what they are.

var temporaryInWords = &Check{
	Name:     "temporary-in-words",
	Severity: problem.Warning,
	Summary:  "a job whose words begin with temporary",
	Explain: "Only the kind, in front of the id, makes a temporary fix of an item. As a word behind the colon it is description, and " +
		"the fix counts as a minor job that nothing asks about before the sale.",
	Example: "---\nstage: body\n---\nwrong|- [ ] undertray-tie: temporary cable tie\nright|- [ ] temporary undertray-tie: cable tie\n",
	Run: func(p *Pass) {
		for _, a := range p.State.Build.Acts {
			if a.What != fact.Opened || a.Ticked || a.Item.Kind != "" || a.ID == "" || !p.looks(a.Session) {
				continue
			}
			if word := note.SaysTemporary(a.Item.Words()); word.S != "" {
				p.ReportFix(word.Whole(), quote(a.ID)+" is a job here, no temporary fix", "Write \"temporary "+a.ID+":\" if it must not stay.",
					&source.Fix{Span: a.IDSpan.File.Span(int(a.IDSpan.Start), int(word.Whole().End)), Text: "temporary " + a.ID + ":"})
			}
		}
	},
}

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
