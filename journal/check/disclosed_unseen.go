package check

import "guidecoat/journal/problem"

var disclosedUnseen = &Check{
	Name: "disclosed-unseen", Severity: problem.Warning,
	Summary: "a snag that is to be told to the buyer, but is private",
	Explain: "`disclose` leaves a snag for the buyer, who must be told of it. " +
		"What is private, or stands in a private note, is shown in the workshop copy only.",
	Example: "---\nstage: body\nwrong|private: yes\n---\n- [ ] job door-scratch: scratch under the handle; disclose\n",
	Run: func(p *Pass) {
		for _, s := range p.State.Snags {
			if !s.Open || !s.Disclose || !s.Private {
				continue
			}
			at, message := s.Span, "the buyer is not told of this, since its note is private"
			for _, e := range s.Events {
				if e.Item == nil {
					continue
				}
				if c := e.Item.Clause("disclose"); c != nil {
					at = c.Span
				}
				if e.Item.Has("private") {
					message = "the buyer is not told of this, since it is private"
				}
			}
			p.Report(at, message, "Leave out \"private\", or write the item in a note that is not.")
		}
	},
}
