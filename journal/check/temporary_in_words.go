package check

import (
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

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
